// Prints the tables that coilwalk wrote (coil.rs), and what its functions give.
mod coil;

fn line<T: std::fmt::Display>(name: &str, numbers: impl IntoIterator<Item = T>) {
    print!("{name}");
    for n in numbers {
        print!(" {n}");
    }
    println!();
}

fn main() {
    line("forward", coil::COIL_FORWARD);
    line("reverse", coil::COIL_REVERSE);
    line("ramp", coil::COIL_RAMP);
    line("mask and off", [coil::COIL_MASK, coil::COIL_OFF]);
    line("words", (-12..12).map(coil::coil_word));
    line("waits", (0..13).map(|made| coil::coil_wait(made, 12 - made)));
}
