package main

import (
	"strings"

	"guidecoat/journal/pick"
	"guidecoat/journal/view"
)

// fastenerSheet is the sheet for the bench: each fastener of the job card below its
// part, with a box to tick and room for what was done.
func fastenerSheet(s *screen, v *view.View) {
	if len(v.Fasteners) == 0 {
		s.say("", "The job card lists no fasteners.")
		return
	}
	part := ""
	for _, f := range v.Fasteners {
		if f.Part != part {
			if part != "" {
				s.gap()
			}
			part = f.Part
			heading := part
			if words := strings.ReplaceAll(part, "-", " "); f.PartName != words {
				heading += ": " + f.PartName
			}
			s.heading(heading)
		}
		lines := benchLines(f)
		s.b.WriteString(lines[0] + "\n")
		for _, line := range lines[1:] {
			s.say("    ", line)
		}
	}
}

// benchLines are the lines of one fastener: what the card asks for, then how it stands, or
// room to write.
func benchLines(f *view.FastenerView) []string {
	box := pick.Either(f.Done, "[x] ", "[ ] ")
	asks := []string{"from " + f.Least + " to " + f.Most}
	for _, x := range []struct {
		is    bool
		words string
	}{{f.SingleUse, "single use"}, {f.RideHeight, "at ride height"}, {f.Words != "", f.Words}} {
		if x.is {
			asks = append(asks, x.words)
		}
	}
	lines := []string{box + f.ID + ": " + f.Asked, strings.Join(asks, "; ")}
	if n := len(f.Tightened); n > 0 {
		t := f.Tightened[n-1]
		said := "tightened to " + t.How + " on " + t.Date.String()
		if t.Lacks.Some() {
			said += "; " + t.Lacks.String()
		}
		lines = append(lines, said)
	}
	if !f.Done {
		lines = append(lines, "torque ________"+strings.Repeat(" + angle ________", f.Angles)+map[bool]string{true: " new [ ]"}[f.SingleUse]+map[bool]string{true: " at ride height [ ]"}[f.RideHeight]+" date ________")
	}
	return lines
}
