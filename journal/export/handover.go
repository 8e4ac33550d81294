package export

import (
	"guidecoat/journal/speech"
	"guidecoat/journal/view"
)

// HandoverOf is what `handover --json` prints: the requirements in their order, each with
// what is in its way, and what the record is silent about.
func HandoverOf(requirements []view.RequirementView, notRecorded []speech.Phrase) Object {
	return figures{}.object(Object{
		{"cleared", view.AllMet(requirements)},
		{"requirements", objectsOf(requirements, func(r view.RequirementView) Object {
			stops := objectsOf(r.Stops, func(s view.StopView) Object { return Object{{"text", s.Words}, {"file", s.Note}, {"line", s.Line}} })
			return Object{{"requirement", r.Name}, {"met", r.Met}, {"stops", stops}}
		})},
		{"not_recorded", speech.All(notRecorded)},
	}...)
}
