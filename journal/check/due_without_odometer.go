package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var dueWithoutOdometer = &Check{
	Name:     journal.DueWithoutOdometer,
	Severity: problem.Warning,
	Summary:  "a distance to count, but no odometer reading to count from",
	Explain: "A snag that is due within a distance counts from what the odometer reads in its own note, or else in the newest one before. " +
		"With neither it never falls due.",
	Bad:  "---\nstage: rear axle\n---\n- [ ] recheck nuts-torque: torque the wheel nuts again; due 50 km\n",
	Good: "---\nstage: rear axle\nodometer: 146851 km\n---\n- [ ] recheck nuts-torque: torque the wheel nuts again; due 50 km\n",
	Say: func(f source.Fault) (string, string) {
		return "there is no odometer reading to count " + quote(f.Word) + " from", "Write \"odometer: DISTANCE\" in this note."
	},
}
