//! Lines and vias from geometry against closed forms, worked examples and independent calculations.
//!
//! FPTC below: FOSSEE Python-Textbook-Companions at d34b2ae, notebooks that re-work printed textbook examples
//! (the values were read there, not in the books).

#![allow(clippy::unwrap_used)]

mod conductor;
mod coupled;
mod dielectric;
mod laws;
mod measured;
mod microstrip;
mod ranges;
mod stripline;
mod thickness;
mod via;

use lanecap::resolve::geometry::{LaminateAt, LineFromGeometry, Roughness};
use lanecap::units::{Hertz, Metre};

/// Loss-free laminate of the permittivity, with ideally thin copper.
fn thin(permittivity: f64) -> LaminateAt {
    LaminateAt {
        permittivity,
        loss_tangent: 0.0,
        copper_thickness: Metre(0.0),
        resistivity: 1.72e-8,
        roughness: Roughness::Smooth,
    }
}

/// A microstrip in mm at a frequency low enough to be quasi-static.
fn microstrip_mm(width: f64, height: f64, gap: Option<f64>, laminate: &LaminateAt) -> LineFromGeometry {
    let mm = |x: f64| Metre(x * 1e-3);
    lanecap::resolve::geometry::microstrip(mm(width), mm(height), gap.map(mm), laminate, Hertz(1e5))
}

/// A stripline in mm.
fn stripline_mm(width: f64, spacing: f64, gap: Option<f64>, laminate: &LaminateAt) -> LineFromGeometry {
    let mm = |x: f64| Metre(x * 1e-3);
    lanecap::resolve::geometry::stripline(mm(width), mm(spacing), gap.map(mm), laminate, Hertz(1e9))
}
