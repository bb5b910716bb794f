package theme

import "strings"

// allJobs lists every page of the site. Each kind of page stands in one line: its path, its template, its fill function.
func (b *book) allJobs() []job {
	jobs := []job{
		{"index.html", "home", (*pen).homePage},
		{"due.html", "due", (*pen).duePage},
		{noticesPath, "notices", (*pen).noticesPage},
		{"track-record.html", "record", (*pen).recordPage},
		{"methods.html", "methods", (*pen).methodsPage},
		{"cautions.html", "cautions", (*pen).cautionsPage},
		{"data.html", "data", (*pen).dataPage},
		{"404.html", "missing", (*pen).missingPage},
	}
	for i := range b.Tanks {
		t := &b.Tanks[i]
		jobs = append(jobs, job{b.paths.tank[t.Tank.ID], "tank", func(p *pen) page { return p.tankPage(t) }},
			job{b.waterPath(t.Tank.ID), "water", func(p *pen) page { return p.waterPage(t) }},
			job{b.cardPath(t.Tank.ID), "card", func(p *pen) page { return p.cardPage(t) }})
		if b.hasYears(t) {
			jobs = append(jobs, job{b.yearsPath(t.Tank.ID), "years", func(p *pen) page { return p.yearsPage(t) }})
		}
	}
	if b.compared() {
		jobs = append(jobs, job{"numbers.html", "compare", (*pen).comparePage})
	}
	if b.grows() {
		jobs = append(jobs, job{"growth.html", "growth", (*pen).growthPage})
	}
	if len(b.Broods) > 0 {
		jobs = append(jobs, job{"broods.html", "broods", (*pen).broodsPage})
	}
	for i := range b.Broods {
		brood := &b.Broods[i]
		jobs = append(jobs, job{b.paths.brood[brood.ID], "brood", func(p *pen) page { return p.broodPage(brood) }})
	}
	if len(b.Colony.Shrimp) > 0 {
		jobs = append(jobs, job{"shrimp.html", "shrimps", (*pen).shrimpsPage})
	}
	for _, s := range b.Colony.Shrimp {
		jobs = append(jobs, job{b.paths.shrimp[s.Name], "shrimp", func(p *pen) page { return p.shrimpPage(s) }})
	}
	return append(jobs, b.diaryJobs()...)
}

// diaryJobs lists the pages that come from entries.
func (b *book) diaryJobs() []job {
	var jobs []job
	if len(b.entries) > 0 {
		jobs = append(jobs, job{"diary.html", "diary", (*pen).diaryPage})
	}
	for _, year := range b.years {
		jobs = append(jobs, job{yearPath(year), "year", func(p *pen) page { return p.yearPage(year) }})
	}
	for i := range b.entries {
		jobs = append(jobs, b.entryJob(i))
	}
	if len(b.topics) > 0 {
		jobs = append(jobs, job{"topics.html", "topics", (*pen).topicsPage})
	}
	for _, t := range b.topics {
		jobs = append(jobs, job{b.paths.topic[strings.ToLower(t.name)], "topic",
			func(p *pen) page { return p.topicPage(t) }})
	}
	return jobs
}

// entryJob is the page of one entry.
func (b *book) entryJob(i int) job {
	return job{b.paths.entry[b.entries[i]], "entry", func(p *pen) page { return p.entryPage(i) }}
}
