//! Lanes put together from model values.

use std::sync::Arc;

use lanecap::diag::Span;
use lanecap::figures::Figure;
use lanecap::model::*;
use lanecap::units::*;

pub(crate) fn driver(z: f64, pad: f64) -> Element {
    Element::Driver(Driver {
        impedance: Ohm(z),
        pad: Farad(pad),
        rise: None,
        swing: None,
        taps: None,
        chip: Chip::default(),
    })
}

pub(crate) fn receiver(z: f64, pad: f64) -> Element {
    Element::Receiver(Receiver { pad: Farad(pad), ..Ohm(z).into() })
}

pub(crate) fn open_receiver(pad: f64) -> Element {
    Element::Receiver(Receiver { impedance: None, pad: Farad(pad), ..Ohm(50.0).into() })
}

/// A lossless trace.
pub(crate) fn trace(z: f64, length: f64, permittivity: f64) -> Element {
    lossy(z, length, permittivity, 1e9, 0.0, 0.0)
}

/// A trace with its conductor attenuation in Np/m and loss tangent at a frequency.
pub(crate) fn lossy(
    z: f64,
    length: f64,
    permittivity: f64,
    reference: f64,
    conductor: f64,
    loss_tangent: f64,
) -> Element {
    Element::Line(TransmissionLine {
        medium: Medium::Trace,
        impedance: Ohm(z),
        length: Metre(length),
        permittivity,
        loss: LineLoss { reference: Hertz(reference), conductor, loss_tangent },
    })
}

pub(crate) fn connector(c: f64, l: f64) -> Element {
    Element::Connector { capacitance: Farad(c), inductance: (l > 0.0).then_some(Henry(l)) }
}

pub(crate) fn via(c: f64, l: f64, stub: Option<(f64, f64, StubSide)>) -> Element {
    Element::Via(Via {
        barrel: Barrel::Lumped { capacitance: Farad(c), inductance: (l > 0.0).then_some(Henry(l)) },
        stub: stub.map(|(length, permittivity, side)| ViaStub { length: Metre(length), permittivity, side }),
    })
}

pub(crate) fn series_r(r: f64) -> Element {
    Element::Series(Immittance::Resistance(Ohm(r)))
}

pub(crate) fn series_l(l: f64) -> Element {
    Element::Series(Immittance::Inductance(Henry(l)))
}

pub(crate) fn series_c(c: f64) -> Element {
    Element::Series(Immittance::Capacitance(Farad(c)))
}

pub(crate) fn shunt_r(r: f64) -> Element {
    Element::Shunt(Immittance::Resistance(Ohm(r)))
}

pub(crate) fn shunt_l(l: f64) -> Element {
    Element::Shunt(Immittance::Inductance(Henry(l)))
}

pub(crate) fn shunt_c(c: f64) -> Element {
    Element::Shunt(Immittance::Capacitance(Farad(c)))
}

pub(crate) fn protector() -> Protector {
    Protector {
        fitted: None,
        part: None,
        bias: None,
        pad: Farad(0.0),
        part_inductance: Henry(0.0),
        part_resistance: Ohm(0.0),
        inductance: Henry(0.0),
        across: false,
        resistance: Ohm(0.0),
        stub: Metre(0.0),
        stub_permittivity: 4.0,
        neck: None,
        mismatch: None,
        spread: None,
    }
}

/// A further part of this capacitance, nothing else.
pub(crate) fn guard(c: f64) -> Guard {
    Guard {
        part: Arc::new(Part::default()),
        capacitance: Farad(c),
        bias: None,
        part_inductance: Henry(0.0),
        part_resistance: Ohm(0.0),
        inductance: Henry(0.0),
        across: false,
        pad: Farad(0.0),
        stub: Metre(0.0),
        stub_permittivity: 4.0,
    }
}

pub(crate) fn place() -> Element {
    Element::Protector(protector())
}

/// A limit of one kind of line on a figure.
pub(crate) trait OnFigure: Sized {
    fn on(figure: &'static Figure, over: Over) -> Option<Self>;
}

impl OnFigure for LaneLimit {
    fn on(figure: &'static Figure, over: Over) -> Option<Self> {
        LaneLimit::new(figure, over)
    }
}

impl OnFigure for FeedLimit {
    fn on(figure: &'static Figure, over: Over) -> Option<Self> {
        FeedLimit::new(figure, over)
    }
}

pub(crate) fn limit<B: OnFigure>(figure: &'static Figure, level: f64) -> Limit<B> {
    Limit {
        of: B::on(figure, Over::Level(level)).unwrap_or_else(|| panic!("{} limits no such line", figure.word())),
        span: None,
    }
}

/// A mask of (dB, Hz).
pub(crate) fn mask<B: OnFigure>(figure: &'static Figure, points: &[(f64, f64)]) -> Limit<B> {
    let points = points.iter().map(|&(level, f)| MaskPoint { level, frequency: Hertz(f) });
    let mask = Mask::new(points.collect()).expect("rising points");
    Limit {
        of: B::on(figure, Over::Mask(mask)).unwrap_or_else(|| panic!("{} limits no such line", figure.word())),
        span: None,
    }
}

/// Elements numbered as written.
pub(crate) fn path(elements: Vec<Element>) -> Path {
    let numbered =
        |(index, element)| PathElement { element, stated: Stated::AsIs, number: index + 1, span: Span::default() };
    Path { elements: elements.into_iter().enumerate().map(numbered).collect() }
}

/// A lane with `elements` from the outer end to the inner end, single-ended.
pub(crate) fn lane(reference: f64, nyquist: f64, elements: Vec<Element>, limits: Vec<Limit<LaneLimit>>) -> Lane {
    Lane {
        modulation: Modulation::Nrz,
        symbol_rate: Baud(2.0 * nyquist),
        reference: Ohm(reference),
        differential: false,
        path: path(elements),
        limits,
    }
}

/// Matched, lossless, nothing but the protector.
pub(crate) fn bare(reference: f64, nyquist: f64, limits: Vec<Limit<LaneLimit>>) -> Lane {
    lane(reference, nyquist, vec![driver(reference, 0.0), place(), receiver(reference, 0.0)], limits)
}

pub(crate) fn with_fitted(mut lane: Lane, c: f64) -> Lane {
    for e in &mut lane.path.elements {
        if let Element::Protector(p) = &mut e.element {
            p.fitted = Some(Farad(c));
        }
    }
    lane
}
