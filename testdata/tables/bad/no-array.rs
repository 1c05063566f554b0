// Invented for this project.
fn main() { let x = [0; 8]; println!("{}", x[1]); }
