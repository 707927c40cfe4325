//! A drawing as SVG.

use plotters::backend::SVGBackend;

use super::canvas::{Drawing, TextRule, paint};

/// Backend units to a point: the backend knows whole numbers only.
const FINE: f64 = 10.0;
/// The backend divides the size it is told by 1.24, and hangs a text 0.76 em above its baseline.
const RULE: TextRule = TextRule {
    size: 1.24,
    baseline: 0.76,
};

pub(super) fn render(drawing: &Drawing) -> String {
    let mut shapes = String::new();
    {
        let size = ((drawing.width * FINE) as u32, (drawing.height * FINE) as u32);
        let mut backend = SVGBackend::with_string(&mut shapes, size);
        // Writing to a string cannot fail.
        let _ = paint(drawing, &mut backend, FINE, RULE);
    }
    // The backend's own opening tag gives way to one that scales and that speaks; it closes its tag when it is dropped.
    let shapes = shapes.split_once('\n').map_or("", |(_, rest)| rest);
    let shapes = shapes
        .replace("=\"#1B1D1F\"", "=\"currentColor\"")
        .replace("fill=\"#FEFEFD\"", "class=\"paper\" fill=\"#FFFFFF\"")
        .replace(" opacity=\"1\"", "");
    let (width, height) = (drawing.width, drawing.height);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"lanecap-chart\" role=\"img\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {} {}\" color=\"#1b1d1f\">\n<title>{}</title>\n\
         <rect class=\"paper\" width=\"100%\" height=\"100%\" fill=\"#FFFFFF\"/>\n{shapes}",
        width * FINE,
        height * FINE,
        escaped(&drawing.title),
    )
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
