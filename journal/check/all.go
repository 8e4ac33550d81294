package check

import "slices"

// All is every check, in the order of the manual. A check that only words a fault is a row
// of the table of its family; one that looks for itself has a file of its own.
var All = slices.Concat(ofFiles, ofFrontMatter, ofCards, ofLines, ofMoney, ofParts, ofSnags, ofSurcharges, ofMeasured, ofWords)

// ofWords are the checks of pictures, links and words.
var ofWords = []*Check{missingFile, badPicture, keptInFile, outsideBuild, privateUnclear, privateWords, rawHTML}
