package journal

// The kinds of events about shrimp: who comes, stays, grows and goes.

var stocked = EventKind{
	Word: Word{Name: "stocked", Form: FormCount, Example: "10", About: "shrimp join the tank",
		Also: []string{"added", "bought", "introduced", "stock"}},
	Attributes: []Word{
		{Name: "age", Form: FormAmount, Quantity: QuantityAge, Example: "3 months", About: "their age; taken from the length when left out, else 3 to 7 months"},
		{Name: "length", Form: FormAmount, Quantity: QuantityLength, Example: "18 mm", About: "their mean body length"},
		{Name: "source", Form: FormText, Example: "a keeper nearby", About: "where they come from", Also: []string{"from"}},
		{Name: "line", Form: FormText, Example: "red", About: "the colour line or strain", Also: []string{"strain", "colour", "color"}},
	},
	build: func(found *values) Happening {
		return &Stocked{Shrimp: found.count("stocked"), Age: found.number("age"), Length: found.number("length"),
			Source: found.text("source"), Line: found.text("line")}
	},
}

var moulted = EventKind{
	Word: Word{Name: "moulted", Form: FormWho, Example: "1", About: "shed shells found",
		Also: []string{"molted", "moult", "molt", "shed"}},
	Attributes: []Word{
		{Name: "failed", Form: FormFlag, Example: "true", About: "the moult went wrong, such as a white ring around the body"},
	},
	build: func(found *values) Happening {
		return &Moulted{Shrimp: found.who("moulted"), Failed: found.flag("failed")}
	},
}

var counted = EventKind{
	Word: Word{Name: "counted", Form: FormCount, Example: "{females: 4, males: 3}",
		About: "a census of the living", Also: []string{"census", "count"}},
	Attributes: []Word{
		{Name: "method", Form: FormChoice, Allowed: []string{string(Glance), string(Careful), string(Emptied)}, Example: "careful",
			About: "how surely it was counted; glance when left out"},
	},
	MayBeNone: true,
	build: func(found *values) Happening {
		method := Method(found.text("method"))
		if method == "" {
			method = Glance
		}
		return &Counted{Shrimp: found.count("counted"), Method: method}
	},
}

// sexes is the words of a sex attribute.
var sexes = []string{string(Female), string(Male)}

var measured = EventKind{
	Word: Word{Name: "measured", Form: FormAmounts, Quantity: QuantityLength, Example: "[21 mm, 22.5 mm]",
		About: "body lengths, from the tip of the head to the end of the tail",
		Also:  []string{"length", "size", "lengths"}},
	Attributes: []Word{
		{Name: "sex", Form: FormChoice, Allowed: sexes, Example: "female", About: "sex of all that were measured"},
		{Name: "brood", Form: FormName, Example: "amber", About: "the brood they come from"},
		{Name: "hatched-on", Form: FormDate, Example: "2026-01-03", About: "the day they hatched, when no brood of the journal says so", Also: []string{"hatched", "born"}},
		{Name: "names", Form: FormNames, Example: "[ruby, pearl]", About: "whose lengths they are, in the same order", Also: []string{"name", "shrimp"}},
	},
	build: buildMeasured,
}

func buildMeasured(found *values) Happening {
	happening := &Measured{
		Lengths:   found.numbers("measured"),
		Sex:       Sex(found.text("sex")),
		Brood:     found.text("brood"),
		HatchedOn: found.day("hatched-on"),
		Names:     found.names("names"),
	}
	found.checkMeasuredNames(happening)
	return happening
}

var graded = EventKind{
	Word: Word{Name: "graded", Form: FormGrades, Example: "{pale: 2, deep: 5}",
		About: "colour quality, on the journal's own scale", Also: []string{"grades", "grade", "colour", "color"}},
	Attributes: []Word{
		{Name: "sex", Form: FormChoice, Allowed: sexes, Example: "female", About: "sex of all that were graded"},
		{Name: "brood", Form: FormName, Example: "amber", About: "the brood they come from"},
	},
	build: func(found *values) Happening {
		return &Graded{Counts: found.counts("graded"), Sex: Sex(found.text("sex")), Brood: found.text("brood")}
	},
}

var died = EventKind{
	Word: Word{Name: "died", Form: FormWho, Example: "1", About: "shrimp found dead",
		Also: []string{"dead", "death", "deaths", "lost"}},
	Attributes: []Word{
		{Name: "cause", Form: FormText, Example: "failed moult", About: "why, as far as the keeper knows", Also: []string{"reason", "why"}},
	},
	build: func(found *values) Happening { return &Died{Shrimp: found.who("died"), Cause: found.text("cause")} },
}

var removed = EventKind{
	Word: Word{Name: "removed", Form: FormWho, Example: "5", About: "shrimp leave the journal",
		Also: []string{"sold", "culled", "given", "gave", "gave away", "given away", "sale"}},
	Attributes: []Word{
		{Name: "reason", Form: FormChoice, Allowed: []string{string(Sold), string(Given), string(Culled), string(MovedOut)}, Example: "sold", About: "why they left", Also: []string{"cause", "why"}},
		{Name: "to", Form: FormText, Example: "a friend", About: "who has them now"},
	},
	build: func(found *values) Happening {
		return &Removed{Shrimp: found.who("removed"), Reason: Reason(found.text("reason")), To: found.text("to")}
	},
}

var moved = EventKind{
	Word: Word{Name: "moved", Form: FormWho, Example: "[ruby]",
		About: "shrimp change tank; a berried female takes her brood along", Also: []string{"move", "transferred"}},
	Attributes: []Word{
		{Name: "to", Form: FormTank, Required: true, Example: "window", About: "the tank they are in now", Also: []string{"into", "tank"}},
	},
	build: func(found *values) Happening { return &Moved{Shrimp: found.who("moved"), To: found.text("to")} },
}
