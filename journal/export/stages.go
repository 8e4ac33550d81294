package export

import (
	"io"
	"strconv"

	"guidecoat/journal/view"
)

// A StageTotal is one stage of one build for the CSV of stage totals, as the workshop sees it.
type StageTotal struct {
	build    string
	stage    Stage
	currency string
}

// StageTotalsOf returns the totals of the stages of a build of that name, in order.
func StageTotalsOf(name string, v *view.View) []StageTotal {
	var list []StageTotal
	for _, s := range CostsOf(v).Stages {
		list = append(list, StageTotal{name, s, v.Currency.Code})
	}
	return list
}

// stageColumns are the columns of the stage totals' CSV.
var stageColumns = []column[StageTotal]{
	{"build", func(t StageTotal) string { return safe(t.build) }},
	{"stage", func(t StageTotal) string { return safe(t.stage.Stage) }},
	{"spent", func(t StageTotal) string { return t.stage.Spent }},
	{"credits", func(t StageTotal) string { return t.stage.Credits }},
	{"net", func(t StageTotal) string { return t.stage.Net }},
	{"minutes", func(t StageTotal) string { return strconv.Itoa(*t.stage.Minutes) }},
	{"budget_best", func(t StageTotal) string { return t.budget(0) }},
	{"budget_likely", func(t StageTotal) string { return t.budget(1) }},
	{"budget_worst", func(t StageTotal) string { return t.budget(2) }},
	{"remaining_best", func(t StageTotal) string { return t.stage.Remaining[0] }},
	{"remaining_likely", func(t StageTotal) string { return t.stage.Remaining[1] }},
	{"remaining_worst", func(t StageTotal) string { return t.stage.Remaining[2] }},
	{"overrun", func(t StageTotal) string { return *t.stage.Overrun }},
	{"currency", func(t StageTotal) string { return t.currency }},
}

// budget is empty where the stage has none: that is not zero.
func (t StageTotal) budget(i int) string {
	if t.stage.Budget == nil {
		return ""
	}
	return t.stage.Budget[i]
}

// WriteStagesCSV writes totals of stages as CSV. Its error is the writer's.
func WriteStagesCSV(w io.Writer, totals []StageTotal) error { return writeCSV(w, stageColumns, totals) }
