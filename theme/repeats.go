package theme

import (
	"fmt"
	"html/template"
	"strings"
	"sync"
)

// repeats draws the parts of the look that are the same on many pages, each once for what it is given, and gives the
// bytes again from then on. A template that is handed a list or a word can reach nothing else, so its result depends on
// nothing else.
type repeats struct {
	set   *template.Template // with the parts as the look has them
	known sync.Map           // from repeat to template.HTML
}

// repeat names a drawn part: its template, and all that it was given.
type repeat struct {
	name  string
	given any
}

// repeated are the templates that are drawn once: parts of the frame, icons and links.
var repeated = []string{"setting", "previews", "journal", "ways", "day", "background", "subscribe", "piece/icons.tmpl", "piece/icon.tmpl", "piece/link.tmpl"}

// replace puts in the place of each such template a call of drawn.
func (r *repeats) replace(look *template.Template) (err error) {
	if r.set, err = look.Clone(); err != nil {
		return err
	}
	for _, name := range repeated {
		if look.Lookup(name) == nil {
			continue // a frame of the keeper's own has no such part
		}
		if _, err := look.New(name).Parse(fmt.Sprintf("{{drawn %q .}}", name)); err != nil {
			return err
		}
	}
	return nil
}

// drawn returns what a template makes of the data.
func (r *repeats) drawn(name string, data any) (template.HTML, error) {
	one := repeat{name, given(data)}
	if html, ok := r.known.Load(one); ok && one.given != nil {
		return html.(template.HTML), nil
	}
	var out strings.Builder
	if err := r.set.ExecuteTemplate(&out, name, data); err != nil {
		return "", err
	}
	html := template.HTML(out.String())
	if one.given != nil {
		r.known.Store(one, html)
	}
	return html, nil
}

// given returns what differs where the data differ, and can be compared: the data themselves where they can, else their
// text. It returns nil for data of other kinds, which a look of the keeper's own may hand to a part: that is drawn anew.
func given(data any) any {
	var b strings.Builder
	switch data := data.(type) {
	case string, Shared, Moment, Link:
		return data
	case []string:
		return strings.Join(data, "\x00")
	case []Preview:
		for _, one := range data {
			fmt.Fprintf(&b, "%q %q %d %d\n", one.Address, one.Alt, one.Width, one.Height)
		}
	case []NavItem:
		for _, item := range data {
			b.WriteString(item.Text)
			b.WriteByte(0)
			b.WriteString(item.Href)
			b.WriteByte(0)
			if item.Here {
				b.WriteByte(1)
			}
		}
	default:
		return nil
	}
	return b.String()
}
