package number

import "testing"

func TestApart(t *testing.T) {
	for text, want := range map[string]string{
		"3800-4500-5100":             "write 3800 4500 5100",
		"3800 – 4500 – 5100":         "write 3800 4500 5100",
		"3800, 4500, 5100":           "write 3800 4500 5100",
		"£3,800/£4,500/£5,100 doors": "write £3,800 £4,500 £5,100",
		"1.5; 2; 2.5":                "write 1.5 2 2.5",
		"400 to 500":                 "write 400 LIKELY 500",
		"400-500 doors":              "write 400 LIKELY 500",
		"£400 - £500":                "write £400 LIKELY £500",
		"100 - 2 doors":              "",
		"100 - 200 - 300 both doors": "write 100 200 300",
		"260 340 520":                "",
		"1,250 1,300 1,400":          "",
		"1,250":                      "",
		"100 two doors - 5 hinges":   "",
		"doors 1-2":                  "",
		"":                           "",
	} {
		bad := Apart(text)
		if want == "" && bad != nil || want != "" && (bad == nil || bad.Help != want || bad.End > len(text)) {
			t.Errorf("%q: %+v, want %q", text, bad, want)
		}
	}
}
