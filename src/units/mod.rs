//! Physical quantities in SI units, their prefixes, and engineering notation.
//!
//! Every quantity is a newtype over `f64` holding the SI value, so that a capacitance cannot be
//! passed where an inductance is meant. `.0` is the bare SI number.
//!
//! A quantity is made with a prefix, as it stands in a sheet, and adds, scales, compares and shows itself:
//!
//! ```
//! use lanecap::units::{Farad, parse_unit};
//!
//! let part = Farad::pico(0.3);
//! assert_eq!(Some(part.0), parse_unit("pF").and_then(|unit| unit.value_of("0.3")));
//!
//! let pads = [Farad::femto(60.0), Farad::femto(80.0)];
//! let total = 2.0 * part + pads.iter().sum::<Farad>();
//! assert_eq!(total.to_string(), "740 fF");
//! assert_eq!(format!("{:.3}", Farad::pico(1.2345)), "1.23 pF");
//! assert_eq!(total.max(part) / Farad::femto(74.0), 10.0);
//! ```
//!
//! Two different quantities multiply and divide to a third where that is one of the table in `product.rs`, rounded
//! once; `1.0 /` a quantity is its reciprocal:
//!
//! ```
//! use lanecap::units::{Farad, Henry, Ohm, Second, Siemens, Volt};
//!
//! let time_constant: Second = Ohm::kilo(1.0) * Farad::nano(100.0);
//! assert_eq!(time_constant.to_string(), "100 us");
//! assert_eq!((Henry::nano(1.0) / Ohm(50.0)).to_string(), "20 ps");
//!
//! let current = Volt(3.3) / Ohm::kilo(4.7);
//! assert_eq!(current.to_string(), "702.1 uA");
//! assert_eq!((Volt(3.3) * current).to_string(), "2.317 mW");
//! assert_eq!(1.0 / Ohm(50.0), Siemens::milli(20.0));
//! ```
//!
//! What has no meaning does not compile:
//!
//! ```compile_fail,E0308
//! use lanecap::units::{Farad, Henry};
//! let sum = Farad::pico(1.0) + Henry::nano(1.0);
//! ```

mod constants;
pub mod decimal;
mod named;
mod product;
mod quantity;
mod unit;

pub use constants::{DB_PER_NEPER, SPEED_OF_LIGHT};
pub use decimal::{Scale, engineering, significant};
pub use quantity::{Ampere, Baud, Coulomb, Farad, Henry, Hertz, Joule, Metre, Ohm, Second, Siemens, Volt, Watt};
pub use unit::{Dimension, PREFIXES, Unit, parse_unit, suggest_unit};
