// Package sequence holds energising orders: rows of coil currents, the step
// modes that make them, the field each row sets up, and what becomes of an
// order when leads are exchanged. It knows no motor, no time and no device.
//
// A row is written in field order A+ B+ A− B−, so that a forward wave order
// reads as a diagonal:
//
//	A+ B+ A- B-
//	 1  0  0  0     0°
//	 0  1  0  0    90°
//	 0  0  1  0   180°
//	 0  0  0  1   270°
//
// Angles are electrical degrees: 360° carry the rotor on by one pole pair.
// Forward is a rising field angle.
package sequence
