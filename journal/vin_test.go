package journal

import "testing"

// The regulator's worked examples of the check digit; see each line.
func TestVIN(t *testing.T) {
	for _, c := range []struct {
		vin, flaw string
		at        int
	}{
		{vin: "1G4AH59H45G118341"}, // 49 CFR part 565, table V (older revision): 411 mod 11 = 4
		{vin: "1J9RP1A36A1644345"}, // NHTSA, Outline for New Manufacturer Information, 565.15(c)(4): 314 mod 11 = 6
		{vin: "1M8GDM9AXKP042788"}, // from memory, of explanations of the rule: 351 mod 11 = 10, written X
		{vin: "11111111111111111"}, // made up: 89 mod 11 = 1
		{vin: "1m8gdm9axkp042788"}, // in small letters
		{vin: "1G4AH59H55G118341", flaw: "vin-check-digit", at: 8},
		{vin: "1G4AH59HX5G118341", flaw: "vin-check-digit", at: 8},
		{vin: "0HZZZZ1JZ3W386752", flaw: "vin-check-digit", at: 8}, // made up; many European numbers have none
		{vin: "1G4AH59H45G11834I", flaw: "bad-vin", at: 16},
		{vin: "1O4AH59H45G118341", flaw: "bad-vin", at: 1},
		{vin: "1G4AH59H45G11834q", flaw: "bad-vin", at: 16},
		{vin: ""}, {vin: "IOQ"}, {vin: "1G4AH59H45G1183412"}, {vin: "1G4AH59H4-G118341"}, // other numbers are not judged
		{vin: "1G4AH59H45G1183ſ1"}, {vin: "1G4AH59H45G1183ı1"}, {vin: "ⱥ1111111111111Ⱥ"}, // 17 bytes, but no 17 characters
	} {
		flaw, at := checkVIN(c.vin)
		if string(flaw) != c.flaw || at != c.at {
			t.Errorf("checkVIN(%q) = %q at %d, want %q at %d", c.vin, flaw, at, c.flaw, c.at)
		}
	}
	// The transliteration of 49 CFR 565.15(c), table III.
	for letters, value := range map[string]int{"AJ": 1, "BKS": 2, "CLT": 3, "DMU": 4, "ENV": 5, "FW": 6, "GPX": 7, "HY": 8, "RZ": 9, "IOQ": -1} {
		for _, c := range []byte(letters) {
			if got := vinValue(c); got != value {
				t.Errorf("value of %c: %d, want %d", c, got, value)
			}
		}
	}
}
