//! What a reader of any result must keep in mind.

/// The cautions, shown with every result.
pub const CAUTIONS: [&str; 5] = [
    "The budget is about signal quality. It is no proof that the port survives a discharge.",
    "Verify the protection on the built board, by IEC 61000-4-2 or by the standard of the product.",
    "Mains, telecom and powered-Ethernet lines, and anything that can hurt someone, are protected by local codes and \
     licensed practice, not by this result.",
    "Values marked as estimates are estimates.",
    "The eye penalty at Nyquist is the loss of the fundamental at Nyquist. It is no eye measurement.",
];
