module pleopod

go 1.26.0

require (
	github.com/BurntSushi/toml v0.3.1 // indirect
	github.com/adrg/frontmatter v0.2.0 // indirect
	github.com/alecthomas/kong v1.17.0 // indirect
	github.com/arran4/golang-ical v0.3.4 // indirect
	github.com/chromedp/cdproto v0.159.0 // indirect
	github.com/chromedp/chromedp v0.23.0 // indirect
	github.com/fsnotify/fsnotify v1.10.1 // indirect
	github.com/go-echarts/go-echarts/v2 v2.6.7 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	github.com/goccy/go-yaml v1.19.2 // indirect
	github.com/google/go-cmp v0.7.0 // indirect
	github.com/gorilla/feeds v1.2.0 // indirect
	github.com/mmcdole/gofeed v1.4.2 // indirect
	github.com/mmcdole/goxpp/v2 v2.0.0 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3 // indirect
	github.com/yuin/goldmark v1.8.7 // indirect
	golang.org/x/image v0.47.0 // indirect
	golang.org/x/net v0.62.0 // indirect
	golang.org/x/sys v0.49.0 // indirect
	golang.org/x/text v0.43.0 // indirect
	golang.org/x/tools v0.51.0 // indirect
	gonum.org/v1/gonum v0.17.0 // indirect
	gopkg.in/yaml.v2 v2.4.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
