package near

import "testing"

func TestIsSlip(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"radiator", "raditor", true}, {"rear-beam", "rearbeam", true}, {"rear-beam", "rear beam", true},
		{"Tidewell Dismantlers", "Tidewel Dismantlers", true}, {"Tidewell", "TIDEWELL", true}, {"Tide-Well", "tidewell", true}, {"ab", "AB", true},
		{"Tidewell Dismantlers", "Tidewell", false}, {"Tidewell", "Tidewell", false},
		{"disc-fl", "disc-fr", false}, {"Mill Lane", "Hill Lane", false}, {"seal-1", "seal-2", false}, {"door-seal", "door-seal-2", false}, {"Unit 4 Parts", "Unit 5 Parts", false}, {"seat", "seal", false}, {"", "", false},
	} {
		if IsSlip(c.a, c.b) != c.want || IsSlip(c.b, c.a) != c.want {
			t.Errorf("IsSlip(%q, %q) is not %t", c.a, c.b, c.want)
		}
	}
}

func TestLatin(t *testing.T) {
	for word, want := range map[string]string{
		"r\u0435ar axle": "rear axle", "r\u0435\u0430r": "rear", "\u0421OBOLT": "COBOLT", "h\u03bfse": "hose", "rear": "rear", "": "", "\u00e9t\u00e9": "\u00e9t\u00e9",
	} {
		got, first := Latin(word)
		if got != want || (first != 0) != (word != want) {
			t.Errorf("Latin(%q) = %q, %q", word, got, first)
		}
	}
	if _, first := Latin("ho\u0455\u0435"); first != '\u0455' {
		t.Errorf("the first is %q", first)
	}
}
