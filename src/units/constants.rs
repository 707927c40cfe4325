//! Constants of nature and of the decibel.

/// Speed of light in vacuum, in m/s: exact by the definition of the metre (SI Brochure, 9th ed., 2.2).
pub const SPEED_OF_LIGHT: f64 = 299_792_458.0;

/// Decibels in one neper: 20/ln 10.
pub const DB_PER_NEPER: f64 = 8.685_889_638_065_037;
