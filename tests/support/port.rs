//! A port of as many lanes as wanted: the same text on every run, and no two lanes alike.

/// What the lanes refer to.
const HEAD: &str = r#"title "A port of many lanes"

limits "fast" {
    added_loss <= 0.5 dB
    return_loss >= 12 dB
    eye_penalty <= 8 %
}
part "array" {
    capacitance 0.30 pF typical 0.40 pF max at 0 V
    inductance 0.35 nH; resistance 0.4 ohm
    unidirectional; grading 0.7 V 0.4
    standoff 3.3 V; clamp 8.5 V at 16 A; dynamic_resistance 0.35 ohm
    contact 12 kV; channels 4; cost 3
}
part "single" {
    capacitance 0.12 pF typical 0.15 pF max at 0 V
    bidirectional; standoff 5 V; clamp 12 V at 16 A; dynamic_resistance 0.5 ohm
    contact 15 kV; channels 2; cost 1.8
}
laminate "outer" {
    permittivity 3.9 at 1 GHz; loss_tangent 0.012 at 1 GHz
    copper 35 um; roughness 0.6 um
}
laminate "core" {
    permittivity 3.5 at 10 GHz; loss_tangent 0.004 at 10 GHz
    copper 18 um; snowballs 14 radius 0.5 um area 85 um2
}
"#;

/// A sheet of so many lanes. They differ in line code, rate and lengths; of eight, three have a mask, four take a part by
/// its name and two have traces of stated dimensions.
pub(crate) fn sheet(lanes: usize) -> String {
    let mut text = HEAD.to_owned();
    text.extend((0..lanes).map(lane));
    text
}

/// The lane of this number. Sevens and fives, so that its traits do not keep step with each other.
fn lane(k: usize) -> String {
    let scaled = 1.0 + (k * 7 % 1_000) as f64 * 1e-3;
    let rate = match k % 5 {
        0 => format!("{:.3} GBd pam4", 4.0 * scaled),
        1 => format!("{:.3} GBd pam3", 2.0 * scaled),
        2 => format!("{:.1} MBd pam5", 200.0 * scaled),
        _ => format!("{:.3} Gb/s nrz", 5.0 * scaled),
    };
    let (protector, trace, limits) = (protector(k), trace(k), limits(k));
    format!(
        "\n# Cable {cable}, pair {pair}.\nlane \"link {k}\" {{\n    port \"J{port}\"\n    rate {rate}\n    \
         reference 90 ohm differential\n    line_voltage 0 V to {high:.1} V\n    exposure contact 8 kV; withstands 22 V\n\
         {limits}    path {{\n        driver 90 ohm pad 0.{pad} pF\n        \
         cable 90 ohm 0.{cable_length:02} m loss 3.2 dB at 2.5 GHz permittivity 2.2\n        \
         connector 0.12 pF 0.35 nH\n        trace 90 ohm {length} mm permittivity 3.4\n        {protector}\n        \
         {trace}\n        via 0.2 pF 0.4 nH\n        receiver 90 ohm pad 0.25 pF\n    }}\n}}\n",
        cable = k / 4,
        pair = k % 4,
        port = k / 16,
        high = 0.8 + (k % 5) as f64 * 0.1,
        pad = 1 + k % 4,
        cable_length = 20 + k % 70,
        length = 2 + k % 50,
    )
}

fn limits(k: usize) -> &'static str {
    match k % 8 {
        0 => "    limit return_loss >= 20 dB at 50 MHz, 14 dB at 240 MHz, 8 dB at 720 MHz\n",
        1 | 2 => {
            "    limit added_loss <= 0.2 dB at 10 MHz, 0.5 dB at 400 MHz, 1.5 dB at 1.2 GHz\n    \
             limit return_loss >= 10 dB\n    limit eye_penalty <= 12 %\n"
        }
        3 => "",
        4 | 5 => "    limits \"fast\"\n    limit insertion_loss <= 12 dB\n",
        _ => "    limits \"fast\"\n",
    }
}

fn protector(k: usize) -> String {
    match k * 5 % 8 {
        0..4 => format!("protector pad 0.0{} pF part \"array\"", 3 + k % 4),
        4 => "protector pad 0.06 pF part \"single\" spread 20 %".to_owned(),
        5 => format!("protector 0.{} pF pad 0.06 pF stub 0.5 mm", 1 + k % 3),
        _ => format!("protector 0.{} pF pad 0.06 pF inductance 0.2 nH", 1 + k % 3),
    }
}

fn trace(k: usize) -> String {
    match k * 3 % 8 {
        0 => format!("trace {} mm microstrip width 0.20 mm height 0.12 mm gap 0.18 mm on \"outer\"", 12 + k % 30),
        1 => format!("trace {} mm stripline width 0.11 mm height 0.34 mm gap 0.15 mm on \"core\"", 15 + k % 30),
        _ => format!(
            "trace 90 ohm {} mm loss 0.2 dB/cm at 2.5 GHz permittivity 3.4 loss_tangent 0.0{}",
            20 + k % 30,
            10 + k % 8
        ),
    }
}
