//! A drawing as SVG.

use maud::{Markup, html};

use super::canvas::{Anchor, Colour, Drawing, Shape, Stroke, Text};
use super::font;
use super::place::Xy;
use super::style::SMALL;

/// Units to a point, so that coordinates are whole numbers.
const FINE: f64 = 10.0;

pub(crate) fn render(drawing: &Drawing) -> String {
    let (width, height) = (drawing.width, drawing.height);
    let same = |a: &Shape, b: &Shape| matches!((a, b), (Shape::Line(_, a), Shape::Line(_, b)) if a == b);
    let markup = html! {
        svg xmlns="http://www.w3.org/2000/svg" class="lanecap-chart" role="img" width=(width) height=(height)
            viewBox={ "0 0 " (fine(width)) " " (fine(height)) } color=(Colour::INK.hex()) {
            title { (drawing.title) }
            rect class="paper" width="100%" height="100%" fill="#FFFFFF" {}
            g fill="none" stroke-linejoin="round" {
                @for shapes in drawing.shapes.chunk_by(same) { "\n" (together(shapes)) }
            }
            "\n"
            g fill="currentColor" font-family=(font::FAMILY) font-size=(fine(SMALL)) {
                @for text in &drawing.texts { "\n" (self::text(text)) }
            }
        }
    };
    format!("{}\n", markup.into_string())
}

/// Shapes of one look.
fn together(shapes: &[Shape]) -> Markup {
    match shapes {
        [Shape::Area(points, colour)] => area(points, *colour),
        [Shape::Line(_, stroke), ..] => line(shapes, *stroke),
        _ => html! {},
    }
}

fn area(points: &[Xy], colour: Colour) -> Markup {
    let mut d = String::new();
    walk(&mut d, points);
    if !d.is_empty() {
        d.push('z');
    }
    let (class, fill) =
        if colour.faint(1.0) == Colour::PAPER { (Some("paper"), "#FFFFFF".to_owned()) } else { (None, paint(colour)) };
    html! { path class=[class] fill=(fill) opacity=[opacity(colour)] d=(d) {} }
}

/// Lines of one stroke as one path.
fn line(shapes: &[Shape], stroke: Stroke) -> Markup {
    let mut d = String::new();
    for shape in shapes {
        if let Shape::Line(points, _) = shape {
            walk(&mut d, points);
        }
    }
    let dashes: Vec<String> = stroke.dashes.iter().map(|length| fine(*length).to_string()).collect();
    let dashes = Some(dashes.join(" ")).filter(|dashes| !dashes.is_empty());
    html! {
        path stroke=(paint(stroke.colour)) stroke-width=(fine(stroke.width)) stroke-dasharray=[dashes]
            opacity=[opacity(stroke.colour)] d=(d) {}
    }
}

fn text(text: &Text) -> Markup {
    let (x, y) = (fine(text.at.0), fine(text.at.1));
    let anchor = match text.anchor {
        Anchor::Start => None,
        Anchor::Middle => Some("middle"),
        Anchor::End => Some("end"),
    };
    let size = (text.size != SMALL).then(|| fine(text.size));
    let fill = Some(paint(text.colour)).filter(|fill| fill != CURRENT);
    let turned = text.upward.then(|| format!("rotate(-90 {x} {y})"));
    html! {
        text x=(x) y=(y) text-anchor=[anchor] font-size=[size] fill=[fill] opacity=[opacity(text.colour)] transform=[turned] {
            (text.text)
        }
    }
}

fn fine(points: f64) -> i32 {
    (points * FINE).round() as i32
}

/// The colour of the page's text.
const CURRENT: &str = "currentColor";

fn paint(colour: Colour) -> String {
    if colour.faint(1.0) == Colour::INK { CURRENT.to_owned() } else { colour.hex() }
}

fn opacity(colour: Colour) -> Option<f64> {
    Some(colour.3).filter(|opacity| *opacity < 1.0)
}

/// Moves to the first point, and on in steps from each point to the next.
fn walk(d: &mut String, points: &[Xy]) {
    let mut points: Vec<(i32, i32)> = points.iter().map(|(x, y)| (fine(*x), fine(*y))).collect();
    points.dedup();
    let Some((x, y)) = points.first().filter(|_| points.len() > 1) else {
        return;
    };
    d.push_str(&format!("M{x} {y}l"));
    for pair in points.windows(2) {
        for step in [pair[1].0 - pair[0].0, pair[1].1 - pair[0].1] {
            // A sign sets a number apart as well.
            if step >= 0 && !d.ends_with('l') {
                d.push(' ');
            }
            d.push_str(&step.to_string());
        }
    }
}
