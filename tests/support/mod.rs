//! What several test modules share.

pub(crate) mod bills;
pub(crate) mod cascade;
pub(crate) mod decimals;
pub(crate) mod feeds;
pub(crate) mod lanes;
pub(crate) mod paths;
pub(crate) mod port;
pub(crate) mod random;
pub(crate) mod toleranced;

use std::path::{Path, PathBuf};

use lanecap::diag::Diagnostic;
use lanecap::model::{Bus, Design, Feed, Kind, Lane};
use lanecap::reading;
use lanecap::sheet::{Gathered, LoadFault, Loaded, gather};

/// The folder of the crate.
pub(crate) fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// A sheet held in a string.
pub(crate) fn read_text(text: &str) -> (Gathered, Result<Design, Vec<Diagnostic>>) {
    let loaded = Loaded { identity: "-".into(), name: "-".into(), bytes: text.as_bytes().to_vec() };
    let gathered = gather(loaded, &mut |_, _| Err(LoadFault { message: "no files here".into() }));
    let port = reading::read(&gathered);
    (gathered, port)
}

/// A sheet in a file, with its includes; shown under its file name alone.
pub(crate) fn read_file(path: &Path) -> (Gathered, Result<Design, Vec<Diagnostic>>) {
    let load = |path: &Path| -> Result<Loaded, LoadFault> {
        let fault = |error: std::io::Error| LoadFault { message: error.kind().to_string() };
        Ok(Loaded {
            identity: path.canonicalize().map_err(fault)?.to_string_lossy().into_owned(),
            name: path.file_name().unwrap_or_default().to_string_lossy().into_owned(),
            bytes: std::fs::read(path).map_err(fault)?,
        })
    };
    let gathered = gather(load(path).unwrap(), &mut |from, to| load(&Path::new(from).parent().unwrap().join(to)));
    let port = reading::read(&gathered);
    (gathered, port)
}

/// The lanes of a sheet.
pub(crate) fn lanes(design: Design) -> Vec<Lane> {
    let lane = |kind| if let Kind::Lane(lane) = kind { Some(lane) } else { None };
    design.lines.into_iter().filter_map(|line| lane(line.kind)).collect()
}

/// The feeds of a sheet.
pub(crate) fn feeds(design: Design) -> Vec<Feed> {
    let feed = |kind| if let Kind::Feed(feed) = kind { Some(feed) } else { None };
    design.lines.into_iter().filter_map(|line| feed(line.kind)).collect()
}

/// The buses of a sheet.
pub(crate) fn buses(design: Design) -> Vec<Bus> {
    let bus = |kind| if let Kind::Bus(bus) = kind { Some(bus) } else { None };
    design.lines.into_iter().filter_map(|line| bus(line.kind)).collect()
}

/// All files below `folder` with this extension, sorted.
pub(crate) fn files(folder: &str, extension: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![root().join(folder)];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(&folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display())) {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|e| e == extension) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}
