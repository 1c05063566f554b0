package files

import "testing"

// A device that never ends does not fill the memory.
func TestReadOfADeviceWithoutEnd(t *testing.T) {
	_, err := Read("/dev/zero", 5000, nil)
	refused(t, err, "/dev/zero: longer than 5000 bytes; a file of this kind is short; is it the right one?")
}
