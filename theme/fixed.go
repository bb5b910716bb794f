package theme

// MissingPage is shown for an address that does not exist.
type MissingPage struct {
	Frame
	Home string // the first page: in full where the journal has an address, because this page is shown for any address
}

func (p *pen) missingPage() page {
	f := p.newFrame("No such page", "This address leads to no page of the diary.")
	f.Canonical = ""
	home := p.set.Address
	if home == "" {
		home = "index.html"
	}
	return &MissingPage{f, home}
}

// DataPage explains the data files.
type DataPage struct {
	Frame
	Files    []DataFile
	Forecast string // address of the forecast document, or ""
}

// DataFile is one file with its columns.
type DataFile struct {
	Name    string
	Href    string
	Words   string
	Columns []Column
}

// Column is one column of a data file.
type Column struct{ Name, Words string }

func (p *pen) dataPage() page {
	out := &DataPage{}
	out.Forecast = p.href(forecastPath)
	for _, t := range dataTables {
		file := DataFile{Name: t.path, Href: p.href(t.path), Words: t.words}
		for _, c := range t.columns {
			file.Columns = append(file.Columns, Column{c.name, c.words})
		}
		out.Files = append(out.Files, file)
	}
	out.Frame = p.newFrame("Data", "The public record and the forecast as open data files, with every column explained.")
	return out
}
