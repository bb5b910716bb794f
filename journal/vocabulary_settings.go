package journal

import "pleopod/journal/lifecycle"

// settingsWords is journal.yaml.
var settingsWords = []Word{
	{Name: "title", Form: FormText, Required: true, Example: "Harbour Street shrimp", About: "name of the journal", Also: []string{"name"}},
	{Name: "keeper", Form: FormText, Example: "Wren Adeyemi", About: "who keeps it", Also: []string{"author", "owner", "breeder"}},
	{Name: "address", Form: FormAddress, Example: "https://example.org/shrimp/", About: "where the site will be served; feed, calendar and sitemap need it", Also: []string{"url", "site", "link", "base"}},
	{Name: "language", Form: FormLanguage, Example: "en", About: "language of the diary's text, as a BCP 47 tag", Also: []string{"lang", "locale"}},
	{Name: "units", Form: FormMapping, Example: "{temperature: C, volume: L}", About: "how pages show values, and what a number without a unit means", Keys: []Word{
		{Name: "temperature", Form: FormChoice, Allowed: []string{"C", "F"}, Example: "C", About: "degrees Celsius or Fahrenheit"},
		{Name: "volume", Form: FormChoice, Allowed: []string{"L", "gal"}, Example: "L", About: "litres or US gallons"},
		{Name: "length", Form: FormChoice, Allowed: []string{"mm", "in"}, Example: "mm", About: "millimetres or inches"},
		{Name: "hardness", Form: FormChoice, Allowed: []string{"dGH", "ppm"}, Example: "dGH", About: "German degrees, or ppm of calcium carbonate"},
	}},
	{Name: "species", Form: FormChoice, Allowed: lifecycle.Species(), Example: "neocaridina-davidi", About: "species of every tank that names no other"},
	{Name: "grades", Form: FormWords, Example: "[pale, even, deep]", About: "the keeper's own colour scale, worst first; needed for graded", Also: []string{"scale"}},
	{Name: "as-of", Form: FormDate, Example: "2026-04-01", About: "the day of every calculation; only for a finished or a sample journal", Also: []string{"today", "date"}},
	{Name: "ammonia-as", Form: FormChoice, Allowed: []string{string(BasisN), string(BasisNH3), string(BasisNH4)}, Example: "N", About: "what the ammonia test reports: nitrogen, ammonia or ammonium"},
	{Name: "tds-factor", Form: FormNumber, Low: 0.4, High: 1, Example: "0.5", About: "TDS in ppm for one µS/cm of conductivity, 0.4 to 1"},
	{Name: "charts", Form: FormMapping, Example: "{runtime: assets/charts.js}", About: "interactive charts from the keeper's own site", Keys: []Word{
		{Name: "runtime", Form: FormPath, Example: "assets/charts.js", About: "script file inside the journal that draws them"},
	}},
	{Name: "look", Form: FormPath, Example: "my-look", About: "folder inside the journal that replaces single templates or styles", Also: []string{"theme", "style"}},
	{Name: "tanks", Form: FormTankList, Required: true, Example: "{north-shelf: {volume: 38 L}}", About: "the tanks, by the id that entries use", Also: []string{"tank", "aquariums"}},
	{Name: "biology", Form: FormBiology, Example: "{incubation: {base: 11 C}}", About: "replaces default parameters of the species, with the keeper's reason"},
}

// tankWords is one tank of journal.yaml.
var tankWords = []Word{
	{Name: "name", Form: FormText, Example: "North shelf", About: "name for people; the id when left out", Also: []string{"title"}},
	{Name: "volume", Form: FormAmount, Quantity: QuantityVolume, Positive: true, Example: "38 L", About: "how much water it holds", Also: []string{"size", "litres", "gallons"}},
	{Name: "since", Form: FormDate, Example: "2025-01-12", About: "the day it was set up", Also: []string{"start", "started", "date", "setup"}},
	{Name: "heater", Form: FormAmount, Quantity: QuantityTemperature, Example: "23 C", About: "set-point of the heater; left out for an unheated tank", Also: []string{"heated", "set-point"}},
	{Name: "temperature-log", Form: FormPath, Example: "readings/north-shelf.csv", About: "file of a temperature logger", Also: []string{"log", "logger"}},
	{Name: "capacity", Form: FormNumber, Positive: true, Example: "180", About: "adults the tank can carry"},
	{Name: "species", Form: FormChoice, Allowed: lifecycle.Species(), Example: "neocaridina-davidi", About: "species of this tank, when it is not the journal's"},
	{Name: "fish", Form: FormFlag, Example: "true", About: "fish or other animals live there that eat the young", Also: []string{"predators"}},
	{Name: "cover", Form: FormPath, Example: "photos/north-shelf.jpg", About: "picture of the tank", Also: []string{"photo", "picture", "image"}},
	{Name: "water-range", Form: FormRanges, Example: "{temperature: 20-26 C, ph: 6.8-7.8}", About: "the span that the keeper wants each reading to stay in", Also: []string{"range", "ranges", "limits"}},
}
