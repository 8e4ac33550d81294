package view

import (
	"testing"

	"guidecoat/journal/state"
	"guidecoat/journal/trial"
)

// A part that holds up several snags, directly and through others, is the one to chase.
func TestHoldups(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "parts:\n  rubber: ordered rubber\n  bolt: arrived bolt\n  beam: needed beam", `
- [ ] job a-one: x; waits for rubber
- [ ] job a-two: x; waits for a-one
- [ ] job b-one: x; waits for beam; dangerous
- [ ] job c-one: x; waits for bolt
- [x] job d-one: x; waits for rubber
`))
	var got []string
	for _, h := range Of(state.At(b, 0, trial.Today), ForWorkshop).Holdups() {
		line := h.Part.ID + ":"
		for _, s := range h.Snags {
			line += " " + s.ID
		}
		got = append(got, line)
	}
	trial.WantList(t, "holdups", got, []string{"rubber: a-one a-two", "beam: b-one"})
}
