//! Every line of a good sheet computed, and written in every format: figures or a fault, and no figure that is no number.

#![no_main]

use std::time::{Duration, Instant};

use lanecap::budget::Figures;
use lanecap::result::size;
use lanecap::text::{Format, render};
use libfuzzer_sys::fuzz_target;

/// No further line of an input is begun after this time.
const LONG: Duration = Duration::from_secs(2);

fuzz_target!(|data: &[u8]| {
    let gathered = lanecap_fuzz::gathered(data);
    let Some(port) = lanecap_fuzz::port(&gathered) else { return };
    let begun = Instant::now();
    for index in 0..port.names().len() {
        if begun.elapsed() > LONG {
            return;
        }
        match size(&port, &[index], Figures::Nyquist, &gathered.sources, &|| ()) {
            Ok(report) => {
                // JSON writes `null` for what is no number: the data are looked at themselves.
                // An interval without an upper end is open.
                let data = format!("{report:?}").replace("high: inf", "high: open");
                for wrong in [": NaN", "(NaN", ", NaN", ": inf", "(inf", ", inf", "-inf"] {
                    assert!(!data.contains(wrong), "{wrong}: {data}");
                }
                for format in [Format::Json, Format::Table, Format::Csv, Format::Markdown] {
                    assert!(render(&report, format).ends_with('\n'));
                }
            }
            Err(errors) => {
                assert!(!errors.is_empty(), "no figures, and no reason");
                lanecap_fuzz::show(&gathered.sources, &errors);
            }
        }
    }
});
