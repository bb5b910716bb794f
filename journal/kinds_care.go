package journal

// The kinds of events about water and food.

var waterTest = EventKind{
	Word: Word{Name: "water", Form: FormReadings, Example: "{ph: 7.4, gh: 8}", About: "a water test",
		Also: []string{"test", "tested", "parameters", "readings"}},
	EachTank: true,
	build:    func(found *values) Happening { return &WaterTest{Readings: found.readings("water")} },
}

var waterChange = EventKind{
	Word: Word{Name: "water-change", Form: FormAmount, Quantity: QuantityChange, Example: "25 %",
		About: "water taken out and replaced, as a share or a volume, always with its unit",
		Also:  []string{"change", "wc", "changed"}},
	Attributes: []Word{
		{Name: "with", Form: FormReadings, Example: "{gh: 6, tds: 130}", About: "readings of the new water", Also: []string{"new", "water"}},
		{Name: "temperature", Form: FormAmount, Quantity: QuantityTemperature, Example: "22 C", About: "temperature of the new water", Also: []string{"temp"}},
	},
	EachTank: true,
	build: func(found *values) Happening {
		happening := &WaterChange{With: found.readings("with"), Temperature: found.number("temperature")}
		happening.Share, happening.Volume = found.change("water-change")
		return happening
	},
}

var dosed = EventKind{
	Word: Word{Name: "dosed", Form: FormText, Example: "5 mL",
		About: "anything added to the water: an amount, or words", Also: []string{"dose", "treated", "medicine"}},
	Attributes: []Word{
		{Name: "substance", Form: FormText, Example: "remineraliser", About: "what was added", Also: []string{"what", "product", "of"}},
	},
	EachTank: true,
	build: func(found *values) Happening {
		return &Dosed{Amount: found.text("dosed"), Substance: found.text("substance")}
	},
}

var fed = EventKind{
	Word: Word{Name: "fed", Form: FormText, Example: "blanched nettle", About: "food",
		Also: []string{"food", "feeding", "feed"}},
	EachTank: true,
	build:    func(found *values) Happening { return &Fed{Food: found.text("fed")} },
}
