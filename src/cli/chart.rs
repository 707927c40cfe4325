//! `chart`: one picture of one line.

use std::path::Path;

use super::job::{Job, refuse};
use super::lines::only_line;
use super::terminal::say_warning;
use super::{ChartArgs, ChartShow, Failure, Outcome, Output};
use crate::budget::not_computable;
use crate::curve::{ChartData, NotDrawn, charted, charted_discharge, charted_feed, charted_sensitivity, charted_yield};
use crate::diag::Diagnostic;
use crate::figures::LineKind;
use crate::model::{Design, Kind, Line, SetValue};
use crate::picture;
use crate::words::set::behind_name;

/// Characters named in a warning at most.
const MOST_NAMED: usize = 10;

/// Forms of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    Svg,
    Png,
}

/// Draws the chosen line and writes the picture.
///
/// # Errors
/// Where the form is unknown, the sheet cannot be read, the line is unknown, not named or none that has this picture, or
/// the picture cannot be written.
pub(super) fn run(args: &ChartArgs) -> Result<Outcome, Failure> {
    let form = args.output.output.as_deref().map_or(Ok(Form::Svg), form)?;
    let Some(Job { output, mut design, sources }) = Job::begin(&args.sheet, &args.output)? else {
        return Ok(Outcome::Failed);
    };
    args.trial.fit(&mut design);
    match drawn(&design, args)? {
        Ok(data) => {
            write_picture(output, form, data, &design.set)?;
            Ok(Outcome::Holds)
        }
        Err(error) => Ok(refuse(&sources, &[*error])),
    }
}

/// Writes a picture in this form, with what is other than the sheet states behind the name of its line.
///
/// # Errors
/// Where it cannot be made or written.
pub(super) fn write_picture(output: Output, form: Form, data: ChartData, set: &[SetValue]) -> Result<(), Failure> {
    let data = ChartData { line: behind_name(&data.line, set), ..data };
    match form {
        Form::Svg => output.write(&picture::svg(&data)),
        Form::Png => {
            output.write_bytes(&picture::png(&data).map_err(Failure::new)?)?;
            if let Some(warning) = boxes(&picture::without_glyph(&data)) {
                say_warning(&warning);
            }
            Ok(())
        }
    }
}

/// The form that the name of a target asks for; `None` where it asks for no picture.
pub(super) fn picture_form(path: Option<&Path>) -> Option<Form> {
    match path?.extension()?.to_string_lossy().to_lowercase().as_str() {
        "svg" => Some(Form::Svg),
        "png" => Some(Form::Png),
        _ => None,
    }
}

/// The numbers of the picture: of the line named, or of the only one there is such a picture of.
fn drawn(design: &Design, args: &ChartArgs) -> Result<Result<ChartData, Box<Diagnostic>>, Failure> {
    if args.show == ChartShow::Discharge {
        return discharge(design, args).map(Ok);
    }
    if args.show == ChartShow::Yield {
        return yielded(design, args);
    }
    if args.show == ChartShow::Sensitivity {
        let line = only_line(design, args.line.as_ref(), "draw")?;
        return Ok(match charted_sensitivity(line) {
            Ok(Some(data)) => Ok(data),
            Ok(None) => return Err(Failure::new("a rail has no budget").help("name a lane, a feed or a bus")),
            Err(fault) => Err(not_computable(line, fault)),
        });
    }
    let show = args.show.of_lane();
    // Of lanes, or of feeds, there may be one alone though the sheet has more lines.
    let wanted = if show.is_some() { LineKind::Lane } else { LineKind::Feed };
    let line = drawable(design, args, |line| line.kind.line_kind() == wanted)?;
    let name = &line.head.name;
    let data = match (&line.kind, show) {
        (Kind::Lane(lane), Some(show)) => charted(name, lane, show),
        (Kind::Feed(feed), None) => charted_feed(name, feed),
        (Kind::Lane(_), None) => {
            return Err(Failure::new("this picture is drawn of antenna feeds, and this line is a lane")
                .help("choose another --show, e.g. reflection, or name a feed"));
        }
        (Kind::Feed(_), Some(_)) => {
            return Err(Failure::new("this picture is drawn of lanes, and this line is an antenna feed")
                .help("of a feed there is --show match; or name a lane"));
        }
        (Kind::Bus(_) | Kind::Rail(_), _) => {
            return Err(Failure::new("charts are drawn of lanes and antenna feeds; this line is neither")
                .help("name a lane or a feed, or use `explain`"));
        }
    };
    Ok(data.map_err(|fault| not_computable(line, fault)))
}

/// The line named, or the only one there is such a picture of.
fn drawable<'d>(design: &'d Design, args: &ChartArgs, is_drawn: impl Fn(&Line) -> bool) -> Result<&'d Line, Failure> {
    let mut drawable = design.lines.iter().filter(|line| is_drawn(line));
    match (&args.line, drawable.next(), drawable.next()) {
        (None, Some(line), None) => Ok(line),
        _ => only_line(design, args.line.as_ref(), "draw"),
    }
}

/// The picture of the tolerances: of the line named, or of the only one that states any.
fn yielded(design: &Design, args: &ChartArgs) -> Result<Result<ChartData, Box<Diagnostic>>, Failure> {
    let line = drawable(design, args, |line| line.head.has_tolerance())?;
    match charted_yield(line, args.sampling.sampling()) {
        Ok(Some(data)) => Ok(Ok(data)),
        Ok(None) => Err(Failure::new("a yield is drawn of a line with tolerances, and this one states none")
            .help("state a `±` behind a value of its path, e.g. `trace 90 ohm ± 10 % 12 mm`")),
        Err(fault) => Ok(Err(not_computable(line, fault))),
    }
}

/// The picture of what a contact discharge leaves: of the line named, or of the only one with a path and such a discharge.
fn discharge(design: &Design, args: &ChartArgs) -> Result<ChartData, Failure> {
    let line = drawable(design, args, |line| line.path().is_some() && line.head.demands.contact.is_some())?;
    charted_discharge(line).map_err(|why| match why {
        NotDrawn::NoPath => Failure::new("a discharge is drawn of a line with a path, and this one states none")
            .help("a bus or a rail may have a `path { … }` of its own"),
        NotDrawn::NoContact => Failure::new("a discharge is drawn of a line that meets one, and this one states none")
            .help("state `exposure contact 8 kV`, with the level that is asked for"),
        NotDrawn::NotStruck(why) => Failure::new(format!("the discharge of this line is not computed: {why}")),
    })
}

/// What an image lacks.
fn boxes(lacking: &[char]) -> Option<Failure> {
    let named: Vec<String> = lacking.iter().take(MOST_NAMED).map(char::to_string).collect();
    let more = if lacking.len() > MOST_NAMED { " …" } else { "" };
    let message = format!("the image shows boxes in place of {}{more}, which its font does not have", named.join(" "));
    let warning =
        Failure::new(message).help("an SVG shows them in the fonts of its reader: give -o a name that ends in .svg");
    (!named.is_empty()).then_some(warning)
}

/// The form that the name of a file asks for; a device or pipe takes SVG.
fn form(path: &Path) -> Result<Form, Failure> {
    match picture_form(Some(path)) {
        Some(form) => Ok(form),
        None if path.extension().is_none() && (path.starts_with("/dev") || path.starts_with("/proc")) => Ok(Form::Svg),
        _ => Err(Failure::new("a chart is a .svg or .png file").help("give -o a name that ends in .svg or .png")),
    }
}
