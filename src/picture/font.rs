//! The one font of every chart, DejaVu Sans: measured, and drawn into bitmaps.

use std::sync::LazyLock;

use ab_glyph::{Font as _, FontRef};
use plotters::style::{FontStyle, register_font};

use crate::diag::shorten;

/// Families in the order of preference; the measures are those of the first, which is the widest.
pub(crate) const FAMILY: &str = "DejaVu Sans, Verdana, sans-serif";
/// Width of a glyph the font lacks, in em: another font of the reader's may draw it.
const FOREIGN: f64 = 1.4;
/// Letters of a text at most, before its width is looked at.
const LONGEST: usize = 160;

static FONT: LazyLock<Option<FontRef<'static>>> = LazyLock::new(|| {
    // Under the same name for bitmaps.
    let registered = register_font(FAMILY, FontStyle::Normal, dejavu::sans::regular()).is_ok();
    FontRef::try_from_slice(dejavu::sans::regular()).ok().filter(|_| registered)
});

/// Width of `text` in the unit of `size`, the size of an em.
pub(crate) fn width(text: &str, size: f64) -> f64 {
    let em = |c: char| {
        let Some(font) = FONT.as_ref() else { return FOREIGN };
        let (glyph, units) = (font.glyph_id(c), font.units_per_em());
        match units {
            Some(units) if glyph.0 != 0 => f64::from(font.h_advance_unscaled(glyph) / units),
            _ => FOREIGN,
        }
    };
    text.chars().map(em).sum::<f64>() * size
}

/// Whether the font has a glyph for a character.
pub(crate) fn has(c: char) -> bool {
    FONT.as_ref().is_some_and(|font| font.glyph_id(c).0 != 0)
}

/// Height of the font from its highest to its lowest reach, in em: what bitmaps call its size.
pub(crate) fn reach() -> f64 {
    let height = |font: &FontRef| Some(f64::from(font.height_unscaled() / font.units_per_em()?));
    FONT.as_ref().and_then(height).unwrap_or(1.2)
}

/// `text` without what could act on a page, cut with `…` to `most` wide.
pub(crate) fn fit(text: &str, size: f64, most: f64) -> String {
    let text = shorten(text, LONGEST);
    if width(&text, size) <= most {
        return text;
    }
    let mut shown = text;
    while shown.pop().is_some() {
        let cut = format!("{}…", shown.trim_end());
        if width(&cut, size) <= most {
            return cut;
        }
    }
    shown
}
