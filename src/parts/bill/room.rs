//! Room in the packages of a part.

use super::Fit;

/// Room left in the packages bought of one part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub(super) struct Room {
    /// Channels.
    pub(super) channels: u32,
    /// Pairs that can still have two channels of one package.
    pub(super) pairs: u32,
}

impl Room {
    /// Takes a lane's channels, and says how many packages that needs: 0 or 1, or 2 of one channel.
    ///
    /// With an even number of channels two free channels can always be brought into one package.
    pub(super) fn take(&mut self, fit: Fit, channels: u32) -> u32 {
        let needed = fit.channels();
        let mut bought = 0;
        // A part of no channels serves no lane.
        while channels > 0 && (self.channels < needed || fit == Fit::Pair && self.pairs < 1) {
            self.channels += channels;
            self.pairs += channels / 2;
            bought += 1;
        }
        self.channels -= needed;
        if fit == Fit::Pair {
            self.pairs -= 1;
        }
        if channels % 2 == 0 {
            self.pairs = self.channels / 2;
        }
        bought
    }
}
