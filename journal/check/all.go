package check

import "slices"

// All is every check, in the order of the manual.
var All = slices.Concat(ofFiles, ofFrontMatter, ofCards, ofLines, ofMoney, ofParts, ofSnags, ofSurcharges, ofMeasured, ofWords)

var ofWords = []*Check{missingFile, badPicture, keptInFile, outsideBuild, privateUnclear, privateWords, rawHTML}
