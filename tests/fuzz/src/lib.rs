//! What the targets share: a sheet and its includes out of bytes, and everything that is said of it.

use lanecap::diag::{Diagnostic, Paint, Sources, render};
use lanecap::model::Design;
use lanecap::reading;
use lanecap::sheet::{Gathered, LoadFault, Loaded, gather};

/// What separates the files of an input: the first is the sheet, and `include "1"` is the second.
const SEPARATOR: u8 = 0x1c;

/// The sheet of these bytes, with its includes.
pub fn gathered(data: &[u8]) -> Gathered {
    let files: Vec<&[u8]> = data.split(|byte| *byte == SEPARATOR).collect();
    let load = |index: usize| {
        let bytes = files.get(index).ok_or(LoadFault { message: "no such file".into() })?.to_vec();
        Ok(Loaded { identity: index.to_string(), name: format!("{index}.lanes"), bytes })
    };
    let root = Loaded { identity: "0".into(), name: "0.lanes".into(), bytes: files[0].to_vec() };
    gather(root, &mut |_, path| load(path.parse().map_err(|_| LoadFault { message: "no file of this name".into() })?))
}

/// The port of a sheet; its errors are shown, and must be some.
pub fn port(gathered: &Gathered) -> Option<Design> {
    match reading::read(gathered) {
        Ok(port) => Some(port),
        Err(errors) => {
            assert!(!errors.is_empty(), "refused without a reason");
            show(&gathered.sources, &errors);
            None
        }
    }
}

/// Every diagnostic as a text.
pub fn show(sources: &Sources, diagnostics: &[Diagnostic]) {
    for diagnostic in diagnostics {
        let text = render(sources, diagnostic, Paint::Plain);
        assert!(!diagnostic.message.is_empty() && text.ends_with("\n\n"), "{text:?}");
        let acts = |c: char| c.is_control() && c != '\n';
        assert!(!text.contains(acts), "a control character is shown: {text:?}");
        render(sources, diagnostic, Paint::Ansi);
    }
}
