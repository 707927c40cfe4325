//! Why a budget cannot be computed.

use std::fmt;

use crate::diag::Diagnostic;
use crate::figures::Figure;
use crate::model::Line;
use crate::response::NotSettled;
use crate::units::Hertz;

/// A lane that the arithmetic cannot follow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fault {
    /// A number of the chain overflows or is undefined at this frequency.
    NotFinite(Hertz),
    /// A figure of the time domain that does not settle.
    NotSettled(NotSettled),
    /// A mask's grid would need more frequencies than the cap.
    TooManyFrequencies {
        /// What the mask bounds.
        figure: &'static Figure,
        /// The cap.
        cap: usize,
    },
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::NotFinite(frequency) => write!(
                f,
                "the path cannot be computed at {frequency}: nothing passes it, or its values are beyond what a number holds"
            ),
            Fault::NotSettled(fault) => write!(f, "{fault}"),
            Fault::TooManyFrequencies { figure, cap } => write!(
                f,
                "the limit {} needs more than {cap} frequencies: the path is too long or too resonant for its span",
                figure.word()
            ),
        }
    }
}

impl std::error::Error for Fault {}

impl From<NotSettled> for Fault {
    fn from(fault: NotSettled) -> Self {
        Fault::NotSettled(fault)
    }
}

/// The error of a line whose numbers go beyond what can be computed.
pub fn not_computable(line: &Line, fault: impl fmt::Display) -> Box<Diagnostic> {
    let message = format!("{} \"{}\": {fault}", line.word(), line.head.name);
    let error = Diagnostic::error("not-computable", line.head.span, message)
        .help("check the path for a value that is out of proportion");
    Box::new(error)
}
