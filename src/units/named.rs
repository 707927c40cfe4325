//! Relations that a product does not express, under their names.

use std::f64::consts::TAU;

use super::quantity::{Baud, Farad, Henry, Hertz, Ohm, Second};

impl Hertz {
    /// The time of one cycle. Infinite for 0 Hz.
    ///
    /// ```
    /// use lanecap::units::{Hertz, Second};
    /// assert_eq!(Hertz::giga(4.0).period(), Second::pico(250.0));
    /// ```
    pub fn period(self) -> Second {
        1.0 / self
    }
}

impl Second {
    /// The frequency of what repeats after this time. Infinite for 0 s.
    ///
    /// ```
    /// use lanecap::units::Second;
    /// assert_eq!(Second::nano(8.0).frequency().to_string(), "125 MHz");
    /// ```
    pub fn frequency(self) -> Hertz {
        1.0 / self
    }
}

impl Baud {
    /// The Nyquist frequency: half the symbol rate, that of alternating symbols.
    ///
    /// ```
    /// use lanecap::units::{Baud, Hertz};
    /// assert_eq!(Baud::giga(16.0).nyquist(), Hertz::giga(8.0));
    /// ```
    pub fn nyquist(self) -> Hertz {
        Hertz(self.0 / 2.0)
    }

    /// The time of one symbol: the unit interval. Infinite for 0 Bd.
    ///
    /// ```
    /// use lanecap::units::{Baud, Second};
    /// assert_eq!(Baud::giga(5.0).symbol(), Second::pico(200.0));
    /// ```
    pub fn symbol(self) -> Second {
        Second(1.0 / self.0)
    }
}

impl Henry {
    /// √(L/C): the impedance at which an inductance and a capacitance in a ladder are matched. Both at least 0, C above
    /// 0.
    ///
    /// ```
    /// use lanecap::units::{Farad, Henry};
    /// assert_eq!(Henry::nano(2.5).impedance_with(Farad::pico(1.0)).to_string(), "50 ohm");
    /// ```
    pub fn impedance_with(self, capacitance: Farad) -> Ohm {
        Ohm((self.0 / capacitance.0).sqrt())
    }

    /// 1/(2π√(LC)): the frequency at which an inductance and a capacitance are in resonance. Both at least 0; infinite
    /// where one of them is 0.
    ///
    /// ```
    /// use lanecap::units::{Farad, Henry};
    /// assert_eq!(Henry::nano(1.0).resonance_with(Farad::pico(1.0)).to_string(), "5.033 GHz");
    /// ```
    pub fn resonance_with(self, capacitance: Farad) -> Hertz {
        Hertz(1.0 / (TAU * (self.0 * capacitance.0).sqrt()))
    }
}
