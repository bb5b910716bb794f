package main

// pictures lists every painting of the sample journal, in the order of the diary.
func pictures() []Picture {
	return []Picture{
		{"workbench", 1600, 1067, workbench},
		{"polka", 1600, 1067, portrait(Shrimp{At: Vec{760, 520}, Size: 900, Angle: -.06, Grade: .86, Arch: .8, Saddle: true, Seed: 3}, dayLight)},
		{"shed-shell", 1600, 1067, shedShell},
		{"polka-berried", 1600, 1067, portrait(Shrimp{At: Vec{830, 500}, Size: 940, Angle: .05, Flip: true, Grade: .9, Arch: 1, Eggs: 38, Seed: 5}, warmLight)},
		{"eyed-eggs", 1600, 1067, eyedEggs},
		{"shrimplets-on-moss", 1600, 1067, shrimplets},
		{"landing", 1600, 1067, landing},
		{"four-grades", 1080, 1350, fourGrades},
		{"tea-chest", 1600, 1067, teaChest},
		{"saddle", 1600, 1067, saddleClose},
		{"thermometer", 1067, 1600, thermometer},
		{"night", 1600, 1067, night},
		{"old-polka", 1600, 1067, oldPolka},
	}
}
