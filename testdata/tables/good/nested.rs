// Invented for this project. /* /* nested */ [1,2,3] */
#[rustfmt::skip]
pub(crate) const HALF: [[u8; 4]; 8] = [
    [1, 0, 0, 0], [1, 1, 0, 0], [0, 1, 0, 0], [0, 1, 1, 0],
    [0, 0, 1, 0], [0, 0, 1, 1], [0, 0, 0, 1], [1, 0, 0, 1],
];
static PACKED: &[u8] = &[0b1000_0000, 0b0100_0000_u8, 0x20u8, 16];
const TUPLES: [(bool, bool, bool, bool); 2] = [(true, false, false, false), (false, true, false, false)];
fn name<'a>(s: &'a str) -> char { let v = vec![8u8, 4, 2, 1]; let e = [0; 8]; '[' }
const DECIMAL: [u32; 4] = [1000, 0100, 0010, 0001];
