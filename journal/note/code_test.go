package note

import (
	"fmt"
	"testing"
)

// ofBytes writes the two bytes of a code as text by SAE J1979 / ISO 15031-5: two
// bits for the letter, two for the first digit, then three hexadecimal digits.
func ofBytes(b uint16) string {
	return fmt.Sprintf("%c%d%03X", "PCBU"[b>>14], b>>12&3, b&0xFFF)
}

func TestCodesOfTwoBytes(t *testing.T) {
	for bytes, want := range map[uint16]string{0x0143: "P0143", 0x0D14: "P0D14", 0x4123: "C0123", 0x9234: "B1234", 0xC100: "U0100", 0xE103: "U2103"} {
		if got := ofBytes(bytes); got != want {
			t.Errorf("%#04x is %s, want %s", bytes, got, want)
		}
	}
	seen := map[string]bool{}
	for b := range 1 << 16 {
		code := ofBytes(uint16(b))
		if !IsCode(code) || Decode(code) == "" || seen[code] {
			t.Fatalf("%#04x: %s", b, code)
		}
		seen[code] = true
	}
}

// The structure by SAE J2012 / ISO 15031-6: P0, P2 and P1 as two handbooks give it, who has
// which part of P3, C, B and U from memory.
func TestDecode(t *testing.T) {
	for code, want := range map[string]string{
		"P0562": "powertrain, generic", "P1234": "powertrain, maker's own", "P2002": "powertrain, generic",
		"P3000": "powertrain, maker's own", "P33FF": "powertrain, maker's own", "P3400": "powertrain, generic", "P39FF": "powertrain, generic", "P3A00": "powertrain",
		"C0035": "chassis, generic", "B1412": "body, maker's own", "B1730-13": "body, maker's own", "U2103": "network, maker's own", "U3000": "network",
		"P4000": "", "C035": "", "c0035": "", "X0035": "", "P0143-1": "",
	} {
		if got := Decode(code); got != want {
			t.Errorf("%s is %q, want %q", code, got, want)
		}
	}
}
