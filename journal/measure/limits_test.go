package measure

import "testing"

func TestLimits(t *testing.T) {
	for _, c := range []struct{ read, text, like, lo, hi string }{
		{"within", "8.0..10.5", "mm", "8.0 mm", "10.5 mm"},
		{"within", "8.0 .. 10.5 mm", "mm", "8.0 mm", "10.5 mm"},
		{"within", "-1.5..-0.5", "°", "-1.5°", "-0.5°"},
		{"within", "20..25 kPa", "psi", "20 kPa", "25 kPa"},
		{"within", "20 kPa..25", "psi", "20 kPa", "25 kPa"},
		{"within", "0.3 in..8 mm", "mm", "0.3 in", "8 mm"},
		{"within", "8..8", "mm", "8 mm", "8 mm"},
		{"spec", "110 ±5", "N·m", "105 N·m", "115 N·m"},
		{"spec", "110 +- 5 N·m", "lbf·ft", "105 N·m", "115 N·m"},
		{"spec", "110 N·m +/- 5", "lbf·ft", "105 N·m", "115 N·m"},
		{"spec", "25 mm ±0.1 in", "mm", "22.46 mm", "27.54 mm"},
		{"spec", "12.6 ±2%", "V", "12.348 V", "12.852 V"},
		{"spec", "-0.5 ±10 %", "°", "-0.55°", "-0.45°"},
		{"spec", "80 ±5", "%", "75 %", "85 %"},
		{"spec", "80 ±5 %", "%", "75 %", "85 %"},
		{"spec", "90 °C ±9 °F", "°C", "85 °C", "95 °C"}, // nine degrees Fahrenheit are five Celsius
		{"spec", "8 ±0", "mm", "8 mm", "8 mm"},
	} {
		read := ParseWithin
		if c.read == "spec" {
			read = ParseSpec
		}
		lo, hi, bad := read(c.text, unit(t, c.like))
		if bad != nil {
			t.Errorf("%s %s: %v", c.read, c.text, bad)
			continue
		}
		for _, limit := range []struct {
			got  Quantity
			want string
		}{{lo, c.lo}, {hi, c.hi}} {
			if want := quantity(t, limit.want); limit.got.Unit != want.Unit || limit.got.Compare(want) != 0 {
				t.Errorf("%s %s: a limit of %s, want %s", c.read, c.text, limit.got, limit.want)
			}
		}
	}
	mm := unit(t, "mm")
	for text, at := range map[string]string{
		"": "", "8": "8", "8..": "", "..8": "", "8..9..10": "8..9..10", "10.5..8.0": "10.5..8.0", "8..9 V": "9 V", "8 V..9": "8 V", "8-9": "8-9",
	} {
		_, _, bad := ParseWithin(text, mm)
		inBounds(t, text, bad)
		if bad == nil || text[bad.Start:bad.End] != at {
			t.Errorf("ParseWithin(%q): %+v, want a complaint at %q", text, bad, at)
		}
	}
	for text, at := range map[string]string{
		"": "", "8": "8", "8 ±": "", "±1": "", "8 ±-1": "-1", "8 ±1 V": "1 V", "8 V ±1": "8 V", "x ±1%": "x", "8 ±x%": "x%",
	} {
		_, _, bad := ParseSpec(text, mm)
		inBounds(t, text, bad)
		if bad == nil || text[bad.Start:bad.End] != at {
			t.Errorf("ParseSpec(%q): %+v, want a complaint at %q", text, bad, at)
		}
	}
}
