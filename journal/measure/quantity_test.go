package measure

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func unit(t *testing.T, name string) Unit {
	t.Helper()
	u, ok := LookupUnit(name)
	if !ok {
		t.Fatalf("no unit %q", name)
	}
	return u
}

func quantity(t *testing.T, text string) Quantity {
	t.Helper()
	q, bad := ParseQuantity(text)
	if bad != nil {
		t.Fatalf("ParseQuantity(%q): %v", text, bad)
	}
	return q
}

// Factors as printed, to seven digits, in NIST SP 811, Appendix B.8; exact ones
// as there or by definition; the longer ones are products of those.
func TestIn(t *testing.T) {
	for _, c := range []struct {
		text, unit string
		places     int32
		want       string
	}{
		{"1 lbf·ft", "N·m", 6, "1.355818"},
		{"1 lbf·ft", "N·m", 12, "1.355817948331"},
		{"1 lbf·in", "N·m", 7, "0.1129848"},
		{"1 kgf·m", "N·m", 12, "9.80665"},
		{"1 psi", "kPa", 6, "6.894757"},
		{"1 psi", "kPa", 12, "6.894757293168"},
		{"1 kgf/cm²", "kPa", 12, "98.0665"},
		{"1 bar", "kPa", 12, "100"},
		{"1 bar", "psi", 6, "14.503774"},
		{"1 mi", "km", 12, "1.609344"},
		{"1 in", "mm", 12, "25.4"},
		{"1 thou", "mm", 12, "0.0254"},
		{"1 US gal", "L", 6, "3.785412"},
		{"1 US gal", "L", 12, "3.785411784"},
		{"1 imp gal", "L", 12, "4.54609"},
		{"1 lb", "kg", 12, "0.45359237"},
		{"1 US qt", "L", 7, "0.9463529"},
		{"4 US qt", "US gal", 12, "1"},
		{"4 imp qt", "imp gal", 12, "1"},
		{"1 cc", "ml", 12, "1"},
		{"1 lbf", "N", 6, "4.448222"},
		{"1 lbf", "N", 12, "4.448221615261"},
		{"1 kgf", "N", 12, "9.80665"},
		{"1 hp", "W", 6, "745.699872"}, // 550 ft·lbf/s
		{"1 PS", "W", 12, "735.49875"}, // 75 kgf·m/s
		{"1 mbar", "Pa", 12, "100"},
		{"1 MPa", "bar", 12, "10"},
		{"1 %", "ppm", 12, "10000"},
		{"100 N·m", "lbf·ft", 6, "73.756215"},
		{"80 lbf·ft", "N·m", 6, "108.465436"},
		{"32 psi", "kPa", 6, "220.632233"},
		{"32 psi", "bar", 6, "2.206322"},
		{"60,000 miles", "km", 12, "96560.64"},
		{"0.0625 in", "mm", 12, "1.5875"}, // 2/32 in, 49 CFR 570.9(a)
		{"-40 °F", "°C", 12, "-40"},
		{"212 °F", "°C", 12, "100"},
		{"100 °C", "°F", 12, "212"},
		{"1 °F", "°C", 12, "-17.222222222222"},
		{"1 °", "′", 12, "60"},
		{"4.7 kΩ", "Ω", 12, "4700"},
		{"1 mph", "km/h", 12, "1.609344"},
		{"20 µm", "mm", 12, "0.02"},
	} {
		got := quantity(t, c.text).In(unit(t, c.unit)).Round(c.places)
		if !got.Equal(dec(c.want)) {
			t.Errorf("%s = %s %s, want %s", c.text, got, c.unit, c.want)
		}
	}
}

func TestCompare(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"12 lbf·in", "1 lbf·ft", 0},
		{"1.59 mm", "0.0625 in", 1}, // passes 2/32 in …
		{"1.59 mm", "1.6 mm", -1},   // … and fails 1.6 mm
		{"25.4 mm", "1 in", 0},
		{"25.4000000001 mm", "1 in", 1},
		{"-40 °C", "-40 °F", 0},
		{"0 °C", "31.999999999999 °F", 1},
		{"1 imp gal", "1 US gal", 1},
		{"50 km", "30 mi", 1},
		{"8.70 mm", "8.7 mm", 0},
		{"-1.5 °", "-0.5 °", -1},
	} {
		a, b := quantity(t, c.a), quantity(t, c.b)
		if !a.Comparable(b) || a.Compare(b) != c.want || b.Compare(a) != -c.want {
			t.Errorf("%s against %s = %d, want %d", c.a, c.b, a.Compare(b), c.want)
		}
	}
	for _, c := range [][2]string{{"1 lbf·ft", "1 lb"}, {"1 km", "1 m"}, {"1 V", "1 A"}, {"1 km", "1 km/h"}} {
		if a, b := quantity(t, c[0]), quantity(t, c[1]); a.Comparable(b) || a.Compare(b) != 0 {
			t.Errorf("%s can be compared with %s", c[0], c[1])
		}
	}
	if (Quantity{}).Comparable(Quantity{}) {
		t.Error("quantities without a unit can be compared")
	}
}

var quantities = []struct{ text, printed, rest string }{
	{"8.7 mm remark", "8.7 mm", " remark"},
	{"8.70mm", "8.70 mm", ""},
	{"-0.5 °", "-0.5°", ""},
	{"−0.5° camber", "-0.5°", " camber"},
	{"+0.25 deg", "0.25°", ""},
	{"12.6V", "12.6 V", ""},
	{"0 mV", "0 mV", ""},
	{"110 Nm", "110 N·m", ""},
	{"110 N⋅m", "110 N·m", ""},
	{"80 ft-lb", "80 lbf·ft", ""},
	{"80 lb ft wheel", "80 lbf·ft", " wheel"},
	{"9 lb", "9 lb", ""},
	{"1.5 US gal", "1.5 US gal", ""},
	{"2 imp gallons  oil", "2 imp gal", "  oil"},
	{"4.7 k\u2126", "4.7 kΩ", ""},
	{"20 \u03bcm", "20 µm", ""},
	{"15'", "15′", ""},
	{"80 % battery", "80 %", " battery"},
	{"1,250 kPa", "1250 kPa", ""},
	{"21 degC", "21 °C", ""},
}

func TestScanQuantity(t *testing.T) {
	for _, c := range quantities {
		q, end, bad := ScanQuantity(c.text)
		if bad != nil || q.String() != c.printed || c.text[end:] != c.rest {
			t.Errorf("ScanQuantity(%q) = %q, rest %q, %v", c.text, q, c.text[end:], bad)
		}
	}
	for _, u := range unitRows {
		for name := range strings.FieldsSeq(u.names) {
			name = strings.ReplaceAll(name, "_", " ")
			if q := quantity(t, "1.50"+name); q.Unit.Kind != u.kind || quantity(t, q.String()).Compare(q) != 0 {
				t.Errorf("1.50 %s reads as %s, a %s", name, q, q.Unit.Kind)
			}
		}
	}
}

var notQuantities = []struct{ text, at, why, help string }{
	{"", "", "no number", "8.7 mm"},
	{"mm", "mm", "no number", "8.7 mm"},
	{"8.7", "8.7", "no unit", "8.7 mm"},
	{"8.7 mmm", "mmm", "not a unit", `"mm"`},
	{"8.7 furlongs", "furlongs", "not a unit", "8.7 mm"},
	{"5 gal", "gal", "two gallons", "US gal or imp gal"},
	{"5 gallons", "gallons", "two gallons", "US gal or imp gal"},
	{"20 c", "c", "not a unit", ""},
	{"8.7 mm, worn", ",", "straight into", "space"},
	{"8,7 mm", "8,7", "wrong places", "8.7"},
	{".5 mm", ".5", "before the point", "0.5"},
	{"-.5 mm", "-.5"[1:], "before the point", "0.5"},
	{"08 mm", "08", "begins with a zero", ""},
	{"1e3 mm", "1e3", "exponent", ""},
	{"5 qt", "qt", "two quarts", "US qt"},
	{"--5 mm", "-5", "no number", ""},
}

func TestScanQuantityRefuses(t *testing.T) {
	for _, c := range notQuantities {
		q, _, bad := ScanQuantity(c.text)
		inBounds(t, c.text, bad)
		if bad == nil {
			t.Errorf("ScanQuantity(%q) = %s, want a complaint", c.text, q)
		} else if at := c.text[bad.Start:bad.End]; at != c.at || !strings.Contains(bad.Why, c.why) || !strings.Contains(bad.Help, c.help) {
			t.Errorf("ScanQuantity(%q) complains at %q: %s (help: %s)", c.text, at, bad.Why, bad.Help)
		}
	}
}

func TestParseQuantityLike(t *testing.T) {
	mm := unit(t, "mm")
	for text, want := range map[string]string{"8.0": "8.0 mm", " 8 mm ": "8 mm", "0.3 in": "0.3 in"} {
		if q, bad := ParseQuantityLike(text, mm); bad != nil || q.String() != want {
			t.Errorf("ParseQuantityLike(%q) = %s, %v", text, q, bad)
		}
	}
	for _, text := range []string{"", "8 V", "8 km", "8 mm thick", "thin"} {
		q, bad := ParseQuantityLike(text, mm)
		inBounds(t, text, bad)
		if bad == nil {
			t.Errorf("ParseQuantityLike(%q) = %s, want a complaint", text, q)
		}
	}
}

func TestDistance(t *testing.T) {
	for text, want := range map[string]string{
		"91252 mi": "91252 mi", "91,252 mi": "91252 mi", "146,000 km": "146000 km", "30 miles": "30 mi", "0 km": "0 km", "91252.4mi": "91252.4 mi",
	} {
		if q, bad := ParseDistance(text); bad != nil || q.String() != want {
			t.Errorf("ParseDistance(%q) = %s, %v", text, q, bad)
		}
	}
	for _, text := range []string{"", "91252", "-1 mi", "5 m", "5 mm", "91,25 mi", "91252 mi; new cluster"} {
		q, bad := ParseDistance(text)
		inBounds(t, text, bad)
		if bad == nil {
			t.Errorf("ParseDistance(%q) = %s, want a complaint", text, q)
		}
	}
	for _, c := range [][3]string{
		{"91252 mi", "50 km", "91283 mi"}, // 31.07 miles more
		{"146000 km", "30 mi", "146048 km"},
		{"91252.4 mi", "30.25 mi", "91282.65 mi"},
		{"0.5 km", "0 mi", "1 km"},
	} {
		if got := AddDistance(quantity(t, c[0]), quantity(t, c[1])); got.String() != c[2] {
			t.Errorf("%s + %s = %s, want %s", c[0], c[1], got, c[2])
		}
	}
}

func FuzzQuantity(f *testing.F) {
	for _, c := range quantities {
		f.Add(c.text)
	}
	for _, c := range notQuantities {
		f.Add(c.text)
	}
	for _, text := range []string{"8..10 mm", "110 ±5 N·m", "12.6 ±2%", "90 °C ±9 °F"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, like := range []Unit{{}, {"km", Distance}, {"°F", Temperature}} {
			lo, hi, bad := ParseWithin(text, like)
			inBounds(t, text, bad)
			if bad == nil && (!lo.Comparable(hi) || lo.Compare(hi) > 0) {
				t.Fatalf("ParseWithin(%q) = %s, %s", text, lo, hi)
			}
			lo, hi, bad = ParseSpec(text, like)
			inBounds(t, text, bad)
			if bad == nil && (!lo.Comparable(hi) || lo.Compare(hi) > 0) {
				t.Fatalf("ParseSpec(%q) = %s, %s", text, lo, hi)
			}
		}
		q, end, bad := ScanQuantity(text)
		inBounds(t, text, bad)
		if bad != nil {
			return
		}
		if end < 1 || end > len(text) || !q.Comparable(q) {
			t.Fatalf("ScanQuantity(%q) = %s, ends at %d", text, q, end)
		}
		back, bad := ParseQuantity(q.String())
		if bad != nil || back.Unit != q.Unit || back.String() != q.String() || back.Compare(q) != 0 {
			t.Fatalf("%q prints as %q, which reads back as %s, %v", text, q, back, bad)
		}
		for _, row := range unitRows {
			if row.kind == q.Unit.Kind {
				name := strings.ReplaceAll(strings.Fields(row.names)[0], "_", " ")
				q.In(unitsByName[name])
			}
		}
	})
}
