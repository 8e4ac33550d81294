package server

import (
	"testing"
)

const axle = `-- 2026-04-11.md --
---
stage: rear axel
time: 3h40 beam out
cost:
  - 3 x 4.99 grease; as consumables; from Tidewell Dismantlers
---
- [ ] temporary exhaust-hanger: hung on wire
`

func TestProblemsAsTyped(t *testing.T) {
	e := start(t, axle, "")
	e.open("2026-04-11.md")
	d := e.problems("2026-04-11.md", "unknown-stage")
	if got := e.in("2026-04-11.md", d[0].Range); got != "rear axel" || d[0].Severity != 1 {
		t.Errorf("the problem stands at %q, severity %d", got, d[0].Severity)
	}
	e.replace("2026-04-11.md", "axel", "axle")
	e.problems("2026-04-11.md")
	e.replace("2026-04-11.md", "; as consumables", "; as consumable")
	e.problems("2026-04-11.md", "unknown-category")
	// A change here is a problem elsewhere, of a file that is not open.
	e.open("build.md")
	e.replace("build.md", "rear axle", "front axle")
	e.problems("2026-04-11.md", "unknown-stage", "unknown-category")
}

func TestHover(t *testing.T) {
	e := start(t, axle, "")
	e.open("2026-04-11.md")
	var h hover
	e.ask("textDocument/hover", e.at("2026-04-11.md", "3 x 4|.99"), &h)
	if h.Contents.Value != "14.97 · consumables · no stage · from Tidewell Dismantlers" {
		t.Errorf("hover says %q", h.Contents.Value)
	}
}
