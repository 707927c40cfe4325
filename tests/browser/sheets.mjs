// Sheets beside the demonstration port: names that try to act, and lines of every kind.
import { pageOf } from "./support.mjs";

/** Names as hostile as a sheet can hold: a string has no quotes and no control characters. */
export const NAMES = [
  "<script>window.pwned=1</script>",
  "</script><script>window.pwned=1</script>",
  "</title></style></svg><script>window.pwned=1</script>",
  "'><img src=x onerror=window.pwned=1>",
  "<svg onload=window.pwned=1>",
  "<!--<script>",
  "]]><b>&lt;&amp;&#60;",
  "javascript:window.pwned=1",
  "=1+1",
  "../x",
  "x".repeat(200),
  "خط الكاميرا",
  "קו המצלמה",
  "相機鏈路",
  "📷🔗",
  `e\u0301${"\u0323\u0307".repeat(6)}`,
];

const PATH = "driver 50 ohm; trace 50 ohm 20 mm permittivity 3.4; protector part";

const hostileLane = (name) => `
part "${name}" {
    capacitance 0.2 pF max at 0 V; bidirectional; standoff 5 V; contact 8 kV; clamp 12 V at 16 A; dynamic_resistance 0.5 ohm; inductance 0.3 nH
    package "${name}"; qualified "${name}"; cost 1
}
limits "${name}" { return_loss >= 10 dB }
lane "${name}" {
    port "${name}"; rate 5 Gb/s nrz; reference 50 ohm; line_voltage 0 V to 1 V; limits "${name}"
    exposure contact 8 kV; withstands 22 V peak 40 V; needs qualified "${name}"; needs package "${name}"
    path { ${PATH} "${name}"; receiver 50 ohm }
}`;

/** Every name as that of a lane, its port, part and limits; the first ones also as feed, bus and rail. */
const HOSTILE = `title "${NAMES.slice(0, 5).join(" ")}"
${NAMES.map(hostileLane).join("")}
feed "feed ${NAMES[3]}" {
    port "${NAMES[3]}"; band 1559 MHz to 1610 MHz; reference 50 ohm
    limit return_loss >= 10 dB
    path { antenna 40 ohm; protector part "${NAMES[3]}"; radio 50 ohm }
}
bus "bus ${NAMES[0]}" {
    port "${NAMES[0]}"; pull_up 2.2 kohm; line_voltage 0 V to 3.3 V; wiring 60 pF; part "${NAMES[0]}"
    limit rise_time <= 300 ns
}
rail "rail ${NAMES[1]}" { port "${NAMES[1]}"; line_voltage 0 V to 4 V; part "${NAMES[1]}" }
`;

/** The feed, the bus and the rail of the hostile sheet, after its lanes. */
export const OTHERS = [`feed ${NAMES[3]}`, `bus ${NAMES[0]}`, `rail ${NAMES[1]}`];
export const hostile = pageOf("hostile", HOSTILE, "\"><img src=x onerror=window.pwned=1>.lanes");

/** Each kind of limit, a pair that is not alike, a lane with nothing fitted, a perfect match, a feed. */
const KINDS = `title "One of each"
part "twin" { capacitance 0.25 pF max at 0 V; mismatch 0.02 pF; inductance 0.3 nH; resistance 0.4 ohm; bidirectional }
part "pair clamp" { capacitance 0.25 pF max at 0 V across; bidirectional }
lane "single line" {
    rate 5 Gb/s nrz; reference 50 ohm
    limit insertion_loss <= 3 dB; limit return_loss_inner >= 9 dB; limit added_loss <= 1 dB
    path { driver 50 ohm; trace 50 ohm 20 mm permittivity 3.4; connector 0.15 pF 0.4 nH; protector; receiver 50 ohm pad 0.1 pF }
}
lane "bare line" {
    rate 1 Gb/s nrz; reference 50 ohm; limit return_loss >= 10 dB; limit eye_penalty <= 10 %
    path { driver 50 ohm; protector; receiver 50 ohm }
}
lane "twisted pair" {
    rate 8 Gb/s nrz; reference 100 ohm differential; line_voltage 0 V to 1 V
    limit mode_conversion <= -30 dB; limit return_loss >= 10 dB
    path { driver 100 ohm; protector pad 0.05 pF part "twin"; trace 100 ohm 20 mm permittivity 3.4; receiver 100 ohm pad 0.1 pF }
}
lane "masked pair" {
    rate 2.5 Gb/s nrz; reference 100 ohm differential; line_voltage 0 V to 1 V
    limit return_loss >= 18 dB at 150 MHz, 18 dB at 300 MHz, 14 dB at 300 MHz, 10 dB at 1.25 GHz
    limit worst_eye_penalty <= 6 %; limit eye_height >= 60 %; limit added_rise <= 20 ps; limit impedance_dip >= 80 ohm
    path outward {
        driver 100 ohm; trace 100 ohm 30 mm permittivity 3.4; protector part "pair clamp" pad 0.05 pF stub 1 mm
        connector 0.1 pF 0.3 nH; receiver 100 ohm
    }
}
feed "mast antenna" {
    band 1559 MHz to 1610 MHz; reference 50 ohm
    limit return_loss >= 10 dB; limit detuning <= 12 MHz
    path { antenna parallel 1575.42 MHz 50 ohm q 12; protector 0.2 pF pad 0.05 pF; trace 50 ohm 14 mm permittivity 3.4; radio 50 ohm }
}
`;
export const kinds = pageOf("kinds", KINDS);
