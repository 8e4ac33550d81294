package journal

import "testing"

func TestSuggestedIDs(t *testing.T) {
	for words, want := range map[string]string{
		"cable tie on the loom": "cable-tie", "the **exhaust** hangs": "exhaust-hangs", "": "fix", "on it": "fix", "wire": "wire-fix", "Öl x": "fix",
	} {
		if got := suggestID(words); got != want {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
}
