package export

import (
	"guidecoat/journal/view"
)

// Handover is what `handover --json` prints.
type Handover struct {
	Cleared      bool          `json:"cleared"`
	Requirements []Requirement `json:"requirements"`
	NotRecorded  []string      `json:"not_recorded"` // what the record is silent about
}

// A Requirement is one thing that is asked for, and what stops it.
type Requirement struct {
	Requirement string `json:"requirement"`
	Met         bool   `json:"met"`
	Stops       []Stop `json:"stops"`
}

// A Stop is one thing in the way.
type Stop struct {
	Text string `json:"text"`
	File string `json:"file"`
	Line int    `json:"line"`
}

// HandoverOf formats the requirements in their order, and what is not recorded.
func HandoverOf(requirements []view.RequirementView, notRecorded []string) Handover {
	out := Handover{Cleared: view.AllMet(requirements), Requirements: []Requirement{}, NotRecorded: list(notRecorded)}
	for _, r := range requirements {
		req := Requirement{Requirement: r.Name, Met: r.Met, Stops: []Stop{}}
		for _, s := range r.Stops {
			req.Stops = append(req.Stops, Stop{s.Words, s.Note, s.Line})
		}
		out.Requirements = append(out.Requirements, req)
	}
	return out
}
