//! The name of a value of a line: which element states it, and which of its values it is.

use std::fmt;
use std::str::FromStr;

/// Where a value stands: `7.length`, `rate`, `part "quad array".inductance`.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Address {
    /// Whose value it is.
    pub owner: Owner,
    /// Which of its values.
    pub value: ValueName,
}

/// Whose value an address names.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Owner {
    /// An element of the path, by its number from 1 in the order the sheet lists the path.
    Element(usize),
    /// The line itself.
    Line,
    /// A part, by its name.
    Part(String),
    /// A board material, by its name.
    Laminate(String),
}

macro_rules! value_names {
    ($($(#[$meta:meta])* $name:ident = $word:literal,)*) => {
        /// What a value is, by the last word of its address.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum ValueName {
            $($(#[$meta])* $name,)*
        }

        impl ValueName {
            /// All of them.
            pub const ALL: &'static [ValueName] = &[$(ValueName::$name,)*];

            /// The word of the address.
            pub fn word(self) -> &'static str {
                match self {
                    $(ValueName::$name => $word,)*
                }
            }
        }
    };
}

value_names! {
    /// Characteristic impedance of a line; impedance of an end; resistance of a resonator.
    Impedance = "impedance",
    /// Pad capacitance; of a via from its geometry the diameter of its pad.
    Pad = "pad",
    /// Edge of a driver.
    Rise = "rise",
    /// Swing of a driver.
    Swing = "swing",
    /// Peaking of an equaliser.
    Ctle = "ctle",
    /// Its zero.
    Zero = "zero",
    /// Its first pole.
    Pole = "pole",
    /// Its second pole.
    SecondPole = "pole2",
    /// Least eye opening.
    Needs = "needs",
    /// Length of a line.
    Length = "length",
    /// Its delay, where that is stated instead.
    Delay = "delay",
    /// Its loss at the first frequency stated.
    Loss = "loss",
    /// Its loss at the second.
    SecondLoss = "loss2",
    /// Relative permittivity.
    Permittivity = "permittivity",
    /// Loss tangent.
    LossTangent = "loss_tangent",
    /// Width of a trace.
    Width = "width",
    /// Height of a trace over its plane.
    Height = "height",
    /// Gap of a pair.
    Gap = "gap",
    /// Capacitance.
    Capacitance = "capacitance",
    /// Inductance.
    Inductance = "inductance",
    /// Resistance.
    Resistance = "resistance",
    /// Length of a stub.
    Stub = "stub",
    /// Length of a via's barrel.
    Barrel = "barrel",
    /// Its hole.
    Drill = "drill",
    /// Its clearance.
    Antipad = "antipad",
    /// Frequency of a resonator.
    Frequency = "frequency",
    /// Its quality factor.
    Quality = "q",
    /// Impedance of the narrowed trace at the protector.
    NeckImpedance = "neck.impedance",
    /// Its length on either side.
    NeckLength = "neck.length",
    /// Rate of a lane, in the unit its sheet states it in.
    Rate = "rate",
    /// Where along its two traces the protector stands: the length of the outer one.
    Place = "place",
    /// Resistor a bus charges through.
    PullUp = "pull_up",
    /// Resistance of the driver a bus charges through.
    Source = "source",
    /// Capacitance of a bus's wiring.
    Wiring = "wiring",
    /// Capacitance of its inputs.
    Inputs = "inputs",
    /// Thickness of a laminate's copper.
    Copper = "copper",
    /// Resistivity of it.
    Resistivity = "resistivity",
    /// Roughness of it.
    Roughness = "roughness",
}

impl ValueName {
    /// The value of this word.
    pub fn of_word(word: &str) -> Option<ValueName> {
        ValueName::ALL.iter().copied().find(|name| name.word() == word)
    }
}

impl fmt::Display for Address {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let value = self.value.word();
        match &self.owner {
            Owner::Element(number) => write!(f, "{number}.{value}"),
            Owner::Line => f.write_str(value),
            Owner::Part(name) => write!(f, "part \"{name}\".{value}"),
            Owner::Laminate(name) => write!(f, "laminate \"{name}\".{value}"),
        }
    }
}

impl FromStr for Address {
    type Err = NoAddress;

    fn from_str(text: &str) -> Result<Address, NoAddress> {
        let text = text.trim();
        let of = |owner: Owner, word: &str| ValueName::of_word(word).map(|value| Address { owner, value });
        let block = |word: &str, owner: fn(String) -> Owner| {
            let rest = text.strip_prefix(word)?.trim_start().strip_prefix('"')?;
            let (name, value) = rest.rsplit_once("\".")?;
            of(owner(name.to_owned()), value)
        };
        let element = || {
            let (number, value) = text.split_once('.')?;
            let number: usize = number.parse().ok().filter(|number| *number > 0)?;
            of(Owner::Element(number), value)
        };
        let line = || of(Owner::Line, text).filter(|address| address.value.is_of_line());
        let found = block("part", Owner::Part).or_else(|| block("laminate", Owner::Laminate));
        found.or_else(element).or_else(line).ok_or(NoAddress)
    }
}

impl ValueName {
    /// Whether a line of any kind states it itself.
    fn is_of_line(self) -> bool {
        use ValueName::{Inputs, Place, PullUp, Rate, Source, Wiring};
        matches!(self, Rate | Place | PullUp | Source | Wiring | Inputs)
    }
}

/// A text that is no address.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoAddress;

impl fmt::Display for NoAddress {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an address is such as `7.length`, `rate` or `part \"name\".inductance`")
    }
}

impl std::error::Error for NoAddress {}
