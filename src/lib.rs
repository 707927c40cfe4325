//! How much capacitance an ESD protector may put on each line of a port.
//!
//! A protector hangs its capacitance on a line that may carry gigabits. Given the data rate and the path of the line
//! (traces, cable, connector, vias, pads), this crate computes the largest capacitance at which every limit of the line
//! still holds: at one frequency in closed form, over a mask or in the time domain by searches that end in exact sets.
//! It names the limit that sets the budget and judges the part that is fitted.
//!
//! ```text
//!  sheet ──parse, read──> Design ──lines──> Lane, Feed, Bus, Rail
//!  builder ──stated, resolve──────────────> Lane, Feed, Bus
//!
//!  Lane ──> network ──> response ──> budget     size_lane, size_feed, size_bus
//!           two-ports   losses,      allowed
//!                       eye, step    sets  ──> parts, curve, result ──> the program (feature `cli`)
//! ```
//!
//! The computing library has no feature; `default-features = false` leaves the command line out with its tables,
//! pictures and pages, and all that only they depend on. Only [`load`] touches the file system.
//!
//! # A sheet
//!
//! ```
//! use std::f64::consts::PI;
//! use lanecap::{Design, Figures, size_lane};
//!
//! let design = Design::parse(
//!     r#"
//!     lane "camera link" {
//!         rate 5 Gb/s nrz
//!         reference 50 ohm
//!         limit return_loss >= 10 dB
//!         path { driver 50 ohm; protector; receiver 50 ohm }
//!     }
//!     "#,
//! )?;
//! for (head, lane) in design.lanes() {
//!     let budget = size_lane(lane, Figures::All)?.sized.budget;
//!     assert_eq!(head.name, "camera link");
//!     // A shunt C on a matched line reflects |S11| = x/sqrt(1 + x^2) with x = pi f C Z.
//!     let by_hand = 1.0 / (PI * 2.5e9 * 50.0 * 3.0);
//!     assert!(budget.capacitance.is_some_and(|c| (c.0 - by_hand).abs() < 1e-12 * by_hand));
//!     assert!(budget.set_by.is_some_and(|figure| figure.word() == "return_loss"));
//! }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! The mistakes of a sheet are [`Diagnostics`], which print as the program prints them: with the place and a cure.
//!
//! # A lane without a sheet
//!
//! An element is given as the circuit has it, or [`stated`](builder::PathBuilder::stated) as a sheet states it: a line by
//! its attenuation or its cross-section, a via by its diameters, the protector by a part. What the circuit has follows in
//! [`resolve`], with the numbers and the remarks of the same sheet.
//!
//! ```
//! use std::sync::Arc;
//! use lanecap::diag::Span;
//! use lanecap::model::*;
//! use lanecap::units::{Baud, Farad, Hertz, Metre, Ohm, Volt};
//! use lanecap::{Figures, size_lane};
//!
//! let at = Some(Hertz::giga(1.0));
//! let board = Arc::new(Laminate { loss_tangent: (0.015, at), ..Laminate::new(4.1, at) });
//! let rating = CapacitanceRating { maximum: Farad::pico(0.3), bias: Some(Volt(2.0)), span: Span::default() };
//! let clamp = Part { to_ground: Some(rating), polarity: Some(Polarity::Bidirectional), ..Part::default() };
//! let inner = LineImpedance {
//!     permittivity: Some(3.4),
//!     losses: vec![LineAttenuation { loss: Attenuation::PerMetre(20.0), frequency: Hertz::giga(2.5) }],
//!     ..Ohm(90.0).into()
//! };
//! let outer = TraceGeometry {
//!     width: Metre::milli(0.2),
//!     height: Metre::milli(0.12),
//!     gap: Some(Metre::milli(0.18)),
//!     laminate: board,
//! };
//! let lane = Lane::builder()
//!     .rate(Baud::giga(5.0), Modulation::Nrz)
//!     .reference(Ohm(90.0))
//!     .differential()
//!     .voltage(Volt(0.0), Volt(3.3))
//!     .limit(LaneLimit::Loss(Loss::Added, Over::Level(0.5)))
//!     .path(|p| {
//!         p.driver(Ohm(90.0))
//!             .stated(Stated::Line(StatedLine::trace(Metre::milli(12.0), LineMake::Microstrip(outer))))
//!             .stated(Stated::Protector(StatedProtector { part: Some(Arc::new(clamp)), ..Default::default() }))
//!             .stated(Stated::Line(StatedLine::trace(Metre::milli(32.0), LineMake::Impedance(inner))))
//!             .receiver(Ohm(90.0))
//!     })
//!     .build()?;
//! // The part is stated at 2 V and has most at 0 V: C = 0.3 pF (1 + g)/2 with g = (1 + 2/0.7)^0.33.
//! let worst = 0.3e-12 * (1.0 + (1.0_f64 + 2.0 / 0.7).powf(0.33)) / 2.0;
//! let fitted = lane.path.protector().and_then(|protector| protector.fitted);
//! assert!(fitted.is_some_and(|c| (c.0 - worst).abs() < 1e-12 * worst));
//! let outcome = size_lane(&lane, Figures::All)?;
//! assert!(outcome.sized.fitted.is_some_and(|fitted| fitted.holds));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! [`Feed::builder`] and [`Bus::builder`] make the other lines. What a line must not be is said in [`Flaws`], each with
//! its [`Place`].

pub mod budget;
pub mod builder;
#[cfg(feature = "cli")]
pub mod cli;
pub mod curve;
pub mod diag;
pub mod figures;
pub mod load;
pub mod model;
pub mod network;
#[cfg(feature = "cli")]
pub mod page;
pub mod parts;
#[cfg(feature = "cli")]
pub mod picture;
pub mod reading;
pub mod resolve;
pub mod response;
// Some of it serves the rooms of the program alone.
#[cfg_attr(not(feature = "cli"), allow(dead_code, unused_imports))]
pub mod result;
pub mod sheet;
pub mod study;
#[cfg(feature = "cli")]
pub mod text;
pub mod transient;
pub mod units;
#[cfg(feature = "cli")]
pub mod words;

pub use budget::{Fault, Figures, Verdict, size_bus, size_feed, size_lane};
pub use diag::{Diagnostic, Diagnostics};
pub use load::ReadError;
pub use model::{Bus, Design, Feed, Flaw, Flaws, Head, Kind, Lane, LaneLimit, Line, Modulation, Place};

/// The example of the README, compiled as a test of the documentation.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
