//! Why a line cannot be computed at a setting of its values.

use std::fmt;

use crate::budget::Fault;
use crate::resolve::SetFault;

/// Why a line cannot be computed at a setting of its values.
#[derive(Debug, Clone, PartialEq)]
pub enum StudyFault {
    /// There is no such line.
    Setting(SetFault),
    /// Its limits cannot be computed.
    Limits(Fault),
}

impl fmt::Display for StudyFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("at other values within its tolerances: ")?;
        match self {
            StudyFault::Setting(fault) => write!(f, "{fault}"),
            StudyFault::Limits(fault) => write!(f, "{fault}"),
        }
    }
}

impl std::error::Error for StudyFault {}

impl From<SetFault> for StudyFault {
    fn from(fault: SetFault) -> Self {
        StudyFault::Setting(fault)
    }
}

impl From<Fault> for StudyFault {
    fn from(fault: Fault) -> Self {
        StudyFault::Limits(fault)
    }
}
