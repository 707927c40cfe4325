//! A drawing as PNG.

use plotters::backend::BitMapBackend;
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{FontDesc, FontFamily, FontStyle, FontTransform, RGBAColor, ShapeStyle, TextStyle};

use super::canvas::{Anchor, Colour, Drawing, Shape, Text};
use super::font;
use super::place::Xy;

/// Pixels to a point in the image.
const SCALE: usize = 2;
/// Drawn larger by this, and averaged, for smooth edges.
const FINER: usize = 3;
/// Units of the backend to a point.
const UNITS: f64 = (SCALE * FINER) as f64;

pub(crate) fn render(drawing: &Drawing) -> Result<Vec<u8>, String> {
    let size = |points: f64| points.ceil() as usize * SCALE;
    let (width, height) = (size(drawing.width), size(drawing.height));
    let mut fine = vec![0xff; width * height * FINER * FINER * 3];
    {
        let mut backend = BitMapBackend::with_buffer(&mut fine, ((width * FINER) as u32, (height * FINER) as u32));
        paint(drawing, &mut backend).map_err(|error| format!("the image cannot be drawn: {error}"))?;
    }
    encode(&averaged(&fine, width, height), width, height)
        .map_err(|error| format!("the image cannot be encoded: {error}"))
}

fn paint(drawing: &Drawing, backend: &mut BitMapBackend) -> Result<(), String> {
    for shape in &drawing.shapes {
        let drawn = match shape {
            Shape::Line(points, stroke) => {
                let style = ShapeStyle {
                    color: rgba(stroke.colour),
                    filled: false,
                    stroke_width: (stroke.width * UNITS).round().max(1.0) as u32,
                };
                let pieces = pieces(points, stroke.dashes).into_iter();
                let mut paths = pieces.flat_map(|piece| without_spikes(&placed(piece)));
                paths.try_for_each(|path| backend.draw_path(path, &style))
            }
            Shape::Area(points, colour) => backend.fill_polygon(placed(points.clone()), &rgba(*colour)),
        };
        drawn.map_err(|error| error.to_string())?;
    }
    drawing.texts.iter().try_for_each(|text| write(text, backend))
}

fn write(text: &Text, backend: &mut BitMapBackend) -> Result<(), String> {
    // The backend's size of a text is the font's whole reach, and it sets the baseline half of that below the anchor.
    let reach = font::reach();
    let up = reach / 2.0 * text.size;
    let (x, y) = text.at;
    let (at, transform) =
        if text.upward { ((x - up, y), FontTransform::Rotate270) } else { ((x, y - up), FontTransform::None) };
    let horizontal = match text.anchor {
        Anchor::Start => HPos::Left,
        Anchor::Middle => HPos::Center,
        Anchor::End => HPos::Right,
    };
    let family = FontFamily::Name(font::FAMILY);
    let font = FontDesc::new(family, text.size * UNITS * reach, FontStyle::Normal);
    let colour = rgba(text.colour);
    let style = TextStyle::from(font.transform(transform)).color(&colour).pos(Pos::new(horizontal, VPos::Top));
    let drawn = backend.draw_text(&text.text, &style, unit(at));
    drawn.map_err(|error| error.to_string())
}

fn rgba(Colour(red, green, blue, opacity): Colour) -> RGBAColor {
    RGBAColor(red, green, blue, opacity)
}

fn unit((x, y): Xy) -> (i32, i32) {
    ((x * UNITS).round() as i32, (y * UNITS).round() as i32)
}

fn placed(points: Vec<Xy>) -> Vec<(i32, i32)> {
    let mut path: Vec<_> = points.into_iter().map(unit).collect();
    path.dedup();
    path
}

/// A path cut where it turns by more than a right angle: there the backend would draw a spike.
fn without_spikes(path: &[(i32, i32)]) -> Vec<Vec<(i32, i32)>> {
    let mut runs = Vec::new();
    let mut first = 0;
    for corner in 1..path.len().saturating_sub(1) {
        let [(x0, y0), (x1, y1), (x2, y2)] = [path[corner - 1], path[corner], path[corner + 1]];
        if (x1 - x0) * (x2 - x1) + (y1 - y0) * (y2 - y1) < 0 {
            runs.push(path[first..=corner].to_vec());
            first = corner;
        }
    }
    runs.push(path[first..].to_vec());
    runs.retain(|run| run.len() > 1);
    runs
}

/// The drawn pieces of a broken line.
fn pieces(points: &[Xy], dashes: &[f64]) -> Vec<Vec<Xy>> {
    let Some(first) = points.first().filter(|_| dashes.iter().sum::<f64>() > 0.0) else {
        return vec![points.to_vec()];
    };
    let mut done = Vec::new();
    let mut piece = vec![*first];
    let (mut which, mut left) = (0, dashes[0]);
    for pair in points.windows(2) {
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        let length = (x1 - x0).hypot(y1 - y0);
        let mut gone = 0.0;
        while length - gone > left {
            gone += left;
            let share = gone / length;
            let at = (x0 + share * (x1 - x0), y0 + share * (y1 - y0));
            if which % 2 == 0 {
                piece.push(at);
                done.push(std::mem::take(&mut piece));
            }
            piece = vec![at];
            which = (which + 1) % dashes.len();
            left = dashes[which];
        }
        left -= length - gone;
        if which % 2 == 0 {
            piece.push((x1, y1));
        }
    }
    if which % 2 == 0 && piece.len() > 1 {
        done.push(piece);
    }
    done
}

fn averaged(fine: &[u8], width: usize, height: usize) -> Vec<u8> {
    let row = width * FINER * 3;
    let mut image = Vec::with_capacity(width * height * 3);
    for y in 0..height {
        for x in 0..width {
            for channel in 0..3 {
                let rows = (0..FINER).map(|dy| (y * FINER + dy) * row + x * FINER * 3 + channel);
                let sum: usize =
                    rows.flat_map(|start| (0..FINER).map(move |dx| start + 3 * dx)).map(|i| usize::from(fine[i])).sum();
                image.push((sum / (FINER * FINER)) as u8);
            }
        }
    }
    image
}

fn encode(image: &[u8], width: usize, height: usize) -> Result<Vec<u8>, png::EncodingError> {
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, width as u32, height as u32);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header()?;
    writer.write_image_data(image)?;
    writer.finish()?;
    Ok(file)
}
