//! Values from outside the project, each with its source.

mod guard;
mod junction;
mod lines;
mod matched;
mod neck;
mod reflection;

use lanecap::network::TwoPort;
use num_complex::Complex64;

/// Impedance seen at the first port with `load` at the second: (A Z + B)/(C Z + D).
fn input_impedance(path: &TwoPort, load: Complex64) -> Complex64 {
    (path.a * load + path.b) / (path.c * load + path.d)
}
