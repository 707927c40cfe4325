//! A drawing as PNG.

use plotters::backend::BitMapBackend;

use super::canvas::{Drawing, TextRule, paint};
use super::font;

/// Pixels to a point in the image.
const SCALE: usize = 2;
/// Drawn larger by this, and averaged, for smooth edges.
const FINER: usize = 3;

pub(super) fn render(drawing: &Drawing) -> Result<Vec<u8>, String> {
    let size = |points: f64| points.ceil() as usize * SCALE;
    let (width, height) = (size(drawing.width), size(drawing.height));
    let mut fine = vec![0xff; width * height * FINER * FINER * 3];
    {
        let mut backend = BitMapBackend::with_buffer(&mut fine, ((width * FINER) as u32, (height * FINER) as u32));
        // The backend's size of a text is the font's whole reach, and it sets the baseline half of that below the anchor.
        let reach = font::reach();
        let rule = TextRule {
            size: reach,
            baseline: reach / 2.0,
        };
        let scale = (SCALE * FINER) as f64;
        paint(drawing, &mut backend, scale, rule).map_err(|error| format!("the image cannot be drawn: {error}"))?;
    }
    encode(&averaged(&fine, width, height), width, height)
        .map_err(|error| format!("the image cannot be encoded: {error}"))
}

fn averaged(fine: &[u8], width: usize, height: usize) -> Vec<u8> {
    let row = width * FINER * 3;
    let mut image = Vec::with_capacity(width * height * 3);
    for y in 0..height {
        for x in 0..width {
            for channel in 0..3 {
                let rows = (0..FINER).map(|dy| (y * FINER + dy) * row + x * FINER * 3 + channel);
                let sum: usize = rows
                    .flat_map(|start| (0..FINER).map(move |dx| start + 3 * dx))
                    .map(|i| usize::from(fine[i]))
                    .sum();
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
