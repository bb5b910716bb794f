package journal

// fileExplanations is about photos, logger files and other files of the journal.
var fileExplanations = []Explanation{
	{"missing-file", "a file that does not exist", "The journal names a file that is not there. Letter case counts, because most web servers tell Ruby.jpg and ruby.jpg apart.", "![Ruby](../photos/ruby.jpg), when the file is Ruby.JPG", "write the name exactly as the file has it"},
	{"unreadable-file", "a file that cannot be read", "The file or folder exists, and the system does not let the program read it.", "a photo that belongs to another user", "change its permissions"},
	{"bad-path", "a path that cannot be used", "Paths stay inside the journal and work on every system: forward slashes, no drive, no .. out of the folder, no hidden files, no names of devices.", `![Ruby](C:\photos\ruby.jpg)`, "copy the picture into photos/ and write ![Ruby](../photos/ruby.jpg)"},
	{"outside-journal", "a link out of the journal", "The file is a symbolic link to something outside of the journal's folder. Nothing outside is ever read, so that nothing outside can be published.", "photos/ruby.jpg, a link to the desktop", "copy the file itself into the journal"},
	{"folder-link", "a folder that is a link", "entries, photos or readings is a symbolic link. Links to folders are not followed.", "entries, a link to another disk", "put the folder itself into the journal"},
	{"not-a-file", "not a file", "The path leads to a folder or to a device, where a file is needed.", "cover: photos", "cover: photos/north-shelf.jpg"},
	{"not-a-folder", "not a folder", "look names a folder, and the path leads to a file.", "look: style.css", "look: my-look, with style.css inside"},
	{"not-a-picture", "not a picture", "Pictures are JPEG, PNG or WebP. The content decides, not the ending of the name. Phones often write HEIC.", "ruby.heic renamed to ruby.jpg", "export it as JPEG"},
	{"photo-size", "a picture that is too large", "Pictures of more than 60 megapixels or 64 megabytes are not read: they would need gigabytes of memory.", "a scan of 20000 x 10000 pixels", "save a smaller copy"},
	{"not-shown", "a picture that stays text", "A picture is its words in square brackets and, right behind them, its path in round ones. A path with spaces stands between < and >.",
		"![Ruby](../photos/my photo.jpg)", "![Ruby](<../photos/my photo.jpg>)"},
	{"no-alt", "a picture without words", "People who cannot see the picture, and people whose page loads slowly, get the words between the brackets instead.", "![](../photos/ruby.jpg)", "![Ruby and her eggs](../photos/ruby.jpg)"},
	{"unused-photo", "a picture that no entry shows", "Only what an entry or a tank shows is published. This picture stays at home.", "photos/spare.jpg", "show it in an entry, or leave it as it is"},
	{"log-header", "a logger file without the right header", "The first line of a logger file names its columns: one of time, date or timestamp, and temperature, with its unit in parentheses where it differs from the journal's.", "Zeit;Wert", "time;temperature (C)"},
	{"gather-row", "a row of a gathered table that is left out", "pleopod gather could not read the row as it stands, or what it says cannot be. The other rows become entries or readings; once it is mended, the same command adds it.", "yesterday;7.4", "2026-03-14;7.4"},
	{"log-row", "a row of a logger file that is left out", "The time or the temperature of the row cannot be read, or no tank can have that temperature. The other rows are used.", "2026-03-14 08:00;ERR", "mend or delete the row; an empty temperature is taken for a gap"},
}

// broodExplanations is about broods, as the replay and the predictions see them.
var broodExplanations = []Explanation{
	{"unknown-brood", "a brood that nobody opened", "A brood exists from the berried event that opened it. None has this name.", "hatched: ambre", "hatched: amber"},
	{"too-many-broods", "more broods than a tank holds", "The event berried opens a brood for each female, with a page and a prediction of its own. The number is far above what lives in a tank.", "berried: 1000", "berried: 10"},
	{"too-many-events", "more events than can be calculated", "Each event is followed day by day. The limits, for one tank on one day and for the journal, are far above what any room of tanks gives.", "a thousand times moulted: 1 on one day", "moulted: 1000, or a second journal"},
	{"too-many-shrimp", "more shrimp than can be followed", "One tank was stocked with far more shrimp than live in any. Often a number has some digits too many.", "stocked: 100000", "stocked: 10"},
	{"too-long-ago", "a record of too many years", "Numbers are calculated for every day from the first event or logged temperature to the day of the calculation. A date of long ago is often a slip, such as 1926 for 2026.", "date: 1962-03-14", "date: 2026-03-14"},
	{"brood-before-berried", "a brood before its beginning", "The event is older than the berried event that opens its brood.", "eyed: amber on 1 March, with berried on 5 March", "mend one of the two dates"},
	{"brood-hatched", "a brood that hatched already", "A brood hatches once. After that its young are a cohort.", "hatched: amber in two entries", "remove one of them; young seen later are sighted: 5, with brood: amber"},
	{"brood-dropped", "a brood that was lost already", "The journal says that all eggs of this brood were lost, by dropped or by the death of the female.", "hatched: amber after dropped: amber", "for a part of the eggs write how many: dropped: amber, with eggs: 5"},
	{"brood-name-taken", "a name of a brood used twice", "Every brood of a journal has its own name, finished ones too, because pages and charts use it.", "brood: amber, a year after the first amber", "brood: amber-2, or any other name"},
	{"brood-unclear", "several broods it could be", "true means the only open brood of the tank, and the tank has several.", "hatched: true, with amber and flint open", "hatched: amber"},
	{"no-open-brood", "no brood it could be", "true means the only open brood of the tank, and the tank has none.", "hatched: true, without berried before", "- berried: 1 on the day she was seen with eggs"},
	{"brood-not-hatched", "young of a brood that has not hatched", "The event is about the young of a brood that is still carried, as far as the journal says.", "sighted: 7, with brood: amber", "- hatched: amber on the day of the hatch"},
	{"brood-elsewhere", "a brood in another tank", "The journal has the brood in another tank than the event.", "eyed: amber in the tank window, berried in north-shelf", "moved: [ruby], with to: window, on the day she changed tank"},
	{"already-berried", "a female with two broods", "A female carries one brood at a time. The one before must have hatched or been dropped.", "berried: [ruby] twice in a week", "end the first with hatched or dropped"},
	{"berried-again", "eggs that were told of before", "Each berried event opens a brood for each female. Once is enough for a brood: it goes on until hatched or dropped. The text says that she still carries, so that one brood may count twice.", "berried: 1, with the text: she is still berried", "the same day without the event; brood: amber below it where it is another female"},
	{"clear-too-early", "seen before any shrimp came", "The last day on which she was seen without eggs lies before the first shrimp of the journal came. Often the month or the year is another.", "last-clear: 2026-02-12, with stocked on 1 March", "last-clear: 2026-03-12"},
	{"more-than-eggs", "more young than eggs", "More young were seen than the brood had eggs, by eggs less what dropped. One of the numbers is a guess, or young of another brood were counted too.", "shrimplets: 30, of a brood with eggs: 20", "mend one of the two, or leave out eggs where nobody counted them"},
	{"unlikely-hatch", "a hatch far from its time", "The days from berried to hatched are hardly possible at the temperature of the tank: outside the central 99.8 percent of the prediction. Often one of the dates is wrong, or two broods were mixed up.", "hatched six days after berried at 22 °C", "mend the date; if it is right, leave it: the brood is then not used for learning"},
}

// stockExplanations is about shrimp and days, as the replay and the predictions see them.
var stockExplanations = []Explanation{
	{"after-as-of", "later than the day of the calculation", "Everything is calculated for one day: today, or the day that --as-of or as-of names. What is later is left out of the site for now.", "an entry dated next week", "mend the date, or wait"},
	{"before-since", "older than the tank", "The date is before the day on which the tank was set up, by since in journal.yaml.", "date: 2024-03-14, in a tank with since: 2025-01-12", "mend the date or since"},
	{"tank-unused", "a tank that no entry is about", "journal.yaml has a tank that no entry, event or logger file mentions.", "a tank that was planned and never set up", "write about it, or remove it"},
	{"more-than-alive", "more shrimp gone than there can be", "More shrimp died, were removed or moved than the journal says can be alive in the tank. Something was not noted: shrimp that were stocked, a brood, or an earlier death counted twice.", "removed: 30, from a tank stocked with 10", "note what is missing, such as stocked or hatched"},
	{"year-off", "a day of another year", "The event has a day of its own, about a year from that of its entry. In January the old year is often written.", "date: 2025-03-12", "date: 2026-03-12"},
	{"removed-to-tank", "removed to a tank of the journal", "Shrimp that are removed leave the journal: they are counted nowhere any more. Those that change tank are moved.", "removed: 2, with to: window", "moved: 2, with to: window"},
	{"moved-nowhere", "moved to the same tank", "The shrimp move to the tank in which they are.", "moved: [ruby], with to: north-shelf, in the tank north-shelf", "to: window"},
	{"shrimp-gone", "a shrimp that is gone", "The named shrimp died or left earlier. A name belongs to one animal for good.", "berried: [ruby], after died: [ruby]", "give the new animal another name, such as ruby-2"},
	{"shrimp-elsewhere", "a shrimp in another tank", "The journal has the named shrimp in another tank than the event.", "moulted: [ruby] in the tank window, when ruby lives in north-shelf", "moved: [ruby], with to: window, on the day it changed tank"},
	{"names-alike", "a name that is hardly a new one", "A name exists from its first mention, so that a slip in it makes another shrimp. This one differs from a known name by the case of its letters, or leaves with its first mention and comes near the name of a shrimp that lives.", "died: [Rubby], when ruby was berried before", "died: [ruby]"},
	{"sex-changed", "a shrimp with two sexes", "The journal called the shrimp male before and female now, or the reverse. Two animals may have been mixed up.", "measured: [19], with sex: male and names: [ruby], after berried: [ruby]", "mend the sex or the name"},
	{"origin-impossible", "a shrimp older than its hatch", "The event says that the shrimp hatched on a day on which it was already here.", "measured with names: [ruby] and brood: amber, when ruby is amber's mother", "mend the name, the brood or hatched-on"},
	{"origin-changed", "a shrimp of two broods", "The journal said before that the shrimp came from another brood.", "names: [ruby] with brood: amber, and later with brood: flint", "mend the name or the brood"},
}
