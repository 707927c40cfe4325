//! Any bytes read as a sheet: a port or errors, and every error can be shown.

#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let gathered = lanecap_fuzz::gathered(data);
    let _ = lanecap_fuzz::port(&gathered);
});
