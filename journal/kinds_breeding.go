package journal

// The kinds of events about eggs and young.

var saddled = EventKind{
	Word: Word{Name: "saddled", Form: FormWho, Example: "2",
		About: "eggs visible in the ovaries, behind the head", Also: []string{"saddle"}},
	build: func(found *values) Happening { return &Saddled{Shrimp: found.who("saddled")} },
}

var courting = EventKind{
	Word: Word{Name: "courting", Form: FormTrue, Example: "true",
		About: "males swimming restlessly through the tank", Also: []string{"swimming", "mating"}},
	build: func(*values) Happening { return &Courting{} },
}

var berried = EventKind{
	Word: Word{Name: "berried", Form: FormWho, Example: "[ruby]",
		About: "females first seen carrying eggs, not at every look; opens one brood for each",
		Also:  []string{"pregnant", "carrying", "berry", "ovigerous"}},
	Attributes: []Word{
		{Name: "brood", Form: FormNameOrNames, Example: "amber", About: "name of the brood, or a list as long as the count", Also: []string{"broods", "clutch"}},
		{Name: "eggs", Form: FormWhole, Example: "30", About: "eggs that each carries"},
		{Name: "last-clear", Form: FormDate, Example: "2026-03-12", About: "last day she was seen without eggs"},
	},
	build: buildBerried,
}

func buildBerried(found *values) Happening {
	happening := &Berried{
		Shrimp:    found.who("berried"),
		Broods:    found.names("brood"),
		Eggs:      found.whole("eggs"),
		LastClear: found.day("last-clear"),
	}
	found.checkBroodNames(happening)
	return happening
}

var eyed = EventKind{
	Word: Word{Name: "eyed", Form: FormNameOrTrue, Example: "amber",
		About: "black eyes visible in the eggs of a brood", Also: []string{"eyes"}},
	build: func(found *values) Happening { return &Eyed{Brood: found.text("eyed")} },
}

var hatched = EventKind{
	Word: Word{Name: "hatched", Form: FormNameOrTrue, Example: "amber",
		About: "the eggs of a brood are gone and the young are out; closes the brood, opens a cohort",
		Also:  []string{"hatch", "birth", "born"}},
	Attributes: []Word{
		{Name: "shrimplets", Form: FormWhole, Example: "18", About: "young seen that day", Also: []string{"young", "babies"}},
		{Name: "last-carried", Form: FormDate, Example: "2026-04-04", About: "last day the eggs were still carried"},
	},
	build: func(found *values) Happening {
		return &Hatched{Brood: found.text("hatched"), Shrimplets: found.whole("shrimplets"),
			LastCarried: found.day("last-carried")}
	},
}

var dropped = EventKind{
	Word: Word{Name: "dropped", Form: FormNameOrTrue, Example: "amber",
		About: "part of a brood lost, or all of it", Also: []string{"lost", "drop"}},
	Attributes: []Word{
		{Name: "eggs", Form: FormWhole, Example: "5", About: "how many eggs were lost; all when left out"},
		{Name: "reason", Form: FormText, Example: "moulted early", About: "why, as far as the keeper knows", Also: []string{"cause", "why"}},
	},
	build: func(found *values) Happening {
		return &Dropped{Brood: found.text("dropped"), Eggs: found.whole("eggs"), Reason: found.text("reason")}
	},
}

var sighted = EventKind{
	Word: Word{Name: "sighted", Form: FormWhole, Example: "7", About: "young shrimp seen",
		Also: []string{"shrimplets", "seen", "babies", "spotted"}},
	Attributes: []Word{
		{Name: "brood", Form: FormName, Example: "amber", About: "the brood they come from"},
	},
	build: func(found *values) Happening {
		return &Sighted{Shrimplets: found.whole("sighted").Value, Brood: found.text("brood")}
	},
}
