package check

// All is every check, in the order of the manual.
var All = []*Check{
	unknownStage,
}
