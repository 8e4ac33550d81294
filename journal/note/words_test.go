package note

import "testing"

// What system a control unit is of, by its name.
func TestSystemOfUnit(t *testing.T) {
	for unit, want := range map[string]string{"brakes": "brakes", "abs": "brakes", "rear-brakes": "brakes", "airbag": "restraints", "high-voltage": "high-voltage", "voltage": "", "embodyment": "", "body-2": "body", "": ""} {
		if got := SystemOfUnit(unit); got != want {
			t.Errorf("%q is of %q, want %q", unit, got, want)
		}
	}
}
