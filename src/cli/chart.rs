//! `chart`: one picture of one line.

use std::path::Path;

use super::job::{Job, refuse};
use super::lines::only_line;
use super::{ChartArgs, Failure, Outcome};
use crate::model::{Lane, LineRef, Port};
use crate::report::chart::{self, Show};
use crate::report::charted;

/// Forms of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    Svg,
    Png,
}

/// Draws the chosen line and writes the picture.
///
/// # Errors
/// Where the form is unknown, the sheet cannot be read, the line is unknown or not named, or the picture cannot be
/// written.
pub(super) fn run(args: &ChartArgs) -> Result<Outcome, Failure> {
    let form = args.output.output.as_deref().map_or(Ok(Form::Svg), form)?;
    let Some(Job {
        output,
        mut port,
        sources,
    }) = Job::begin(&args.sheet, &args.output)?
    else {
        return Ok(Outcome::Failed);
    };
    args.trial.fit(&mut port);
    match charted(lane(&port, args.line.as_ref())?, Show::from(args.show)) {
        Ok(data) => {
            match form {
                Form::Svg => output.write(&chart::svg(&data))?,
                Form::Png => output.write_bytes(&chart::png(&data).map_err(Failure::new)?)?,
            }
            Ok(Outcome::Holds)
        }
        Err(error) => Ok(refuse(&sources, &[*error])),
    }
}

/// The lane to draw: the one named, or the only one.
fn lane<'a>(port: &'a Port, wanted: Option<&String>) -> Result<&'a Lane, Failure> {
    if let (None, [only]) = (wanted, &port.lanes[..]) {
        return Ok(only);
    }
    match only_line(port, wanted, "draw")? {
        LineRef::Lane(lane) => Ok(lane),
        _ => Err(Failure::new("charts are drawn of lanes; this line is none").help("name a lane, or use `explain`")),
    }
}

/// The form that the name of a file asks for; a device or pipe takes SVG.
fn form(path: &Path) -> Result<Form, Failure> {
    let extension = path
        .extension()
        .map(|extension| extension.to_string_lossy().to_lowercase());
    match extension.as_deref() {
        Some("svg") => Ok(Form::Svg),
        Some("png") => Ok(Form::Png),
        None if path.starts_with("/dev") || path.starts_with("/proc") => Ok(Form::Svg),
        _ => Err(Failure::new("a chart is a .svg or .png file").help("give -o a name that ends in .svg or .png")),
    }
}
