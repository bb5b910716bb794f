package journal

// What the reader accepts at most. Everything above is a problem at its place, never a slow or a large read. What the
// replay accepts at most stands in the package colony, and what the pictures may cost in theme/photo.
const (
	maxSettingsBytes    = 256 << 10 // journal.yaml
	maxEntryBytes       = 1 << 20   // one entry file
	maxLogBytes         = 16 << 20  // one logger file
	maxPhotoBytes       = 64 << 20  // one picture file
	maxFrontMatterBytes = 64 << 10  // the YAML of one entry
	maxPhotoPixels      = 60_000_000

	maxYAMLDepth      = 32     // brackets and braces inside each other
	maxDashesPerLine  = 4      // "- - - -" opens lists inside lists
	maxBlankLines     = 100    // in a row; the parser takes the square of them inside a text
	maxYAMLTokens     = 20_000 // of one file; a usual entry has a hundred
	maxEvents         = 1_000  // of one entry
	maxTanks          = 200    // of one journal
	maxListItems      = 1_000  // of any list or mapping in the YAML
	maxTextLength     = 2_000  // code points of one text in the YAML
	maxNameLength     = 60     // code points of the name of a brood, a shrimp or a tank
	maxCount          = 100_000
	maxReportedInFile = 200 // problems of one file that are listed; the rest is counted

	maxMarksPerBlock = 2_000 // emphasis and bracket marks of one Markdown block
	maxBlockNesting  = 24    // quotes and lists inside each other
	maxTried         = 200   // lines of one text that are tried as events
	maxTriedBytes    = 300   // of such a line

	maxFiles        = 50_000    // files of one journal
	maxJournalBytes = 128 << 20 // all entries together; ten years of daily notes have ten megabytes
	maxJournalNodes = 6_000_000 // words, marks and blocks of all Markdown; each takes some microseconds to read and to draw
	maxBatchBytes   = 2 << 20   // entries that are read before their words, marks and blocks are summed up
	maxPathBytes    = 400       // of one path
	maxLogRow       = 2_000     // bytes of one row of a logger file
	maxRuntimeBytes = 8 << 20   // the chart runtime
)

// The years in which a diary of shrimp can have been written: earlier and later dates are slips of the hand.
const (
	firstYear = 1950
	lastYear  = 2199
)
