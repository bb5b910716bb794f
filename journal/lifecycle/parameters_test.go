package lifecycle

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"
	"testing"
)

// numbers collects the address of every number inside a struct, so that none can be left out of the table.
func numbers(v reflect.Value, found map[*float64]string, path string) {
	for i := range v.NumField() {
		field, name := v.Field(i), path+v.Type().Field(i).Name
		switch field.Kind() {
		case reflect.Struct:
			numbers(field, found, name+".")
		case reflect.Float64:
			found[field.Addr().Interface().(*float64)] = name
		}
	}
}

func TestEveryNumberIsAParameter(t *testing.T) {
	var p Profile
	fields := map[*float64]string{}
	numbers(reflect.ValueOf(&p).Elem(), fields, "")
	if len(fields) < 60 {
		t.Fatalf("found %d numbers in Profile, want at least 60", len(fields))
	}
	for _, parameter := range Parameters() {
		at := parameter.at(&p)
		if _, ok := fields[at]; !ok {
			t.Errorf("%s: its field is used by another parameter", parameter.Name)
		}
		delete(fields, at)
	}
	for _, name := range fields {
		t.Errorf("Profile.%s has no parameter", name)
	}
}

func TestParametersHaveANameBoundsAndASource(t *testing.T) {
	form := regexp.MustCompile(`^[a-z]+\.[a-z]+(-[a-z]+)*$`)
	seen := map[string]bool{}
	for _, p := range Parameters() {
		if !form.MatchString(p.Name) || seen[p.Name] {
			t.Errorf("name %q is malformed or used twice", p.Name)
		}
		seen[p.Name] = true
		if !(p.Low < p.High) || p.Default < p.Low || p.Default > p.High {
			t.Errorf("%s: default %v is not within %v to %v", p.Name, p.Default, p.Low, p.High)
		}
		if p.Meaning == "" || p.Source == "" || p.Flag.Meaning() == "" {
			t.Errorf("%s: meaning %q, flag %q, source %q: none may be missing", p.Name, p.Meaning, p.Flag, p.Source)
		}
		if p.Flag == Published && !regexp.MustCompile(`(19|20)\d\d|\bpublished\b`).MatchString(p.Source) {
			t.Errorf("%s is flagged published, but its source names no year: %q", p.Name, p.Source)
		}
	}
	for _, pair := range ordered() {
		if !seen[pair[0]] || !seen[pair[1]] {
			t.Errorf("ordered names an unknown parameter: %v", pair)
		}
	}
}

func TestEverySpeciesHasAProfileWithoutContradictions(t *testing.T) {
	if _, ok := Default("unicorn"); ok {
		t.Error(`Default("unicorn") exists`)
	}
	for _, species := range Species() {
		p, ok := Default(species)
		if !ok || p.Species != species || p.Name == "" {
			t.Fatalf("Default(%q) = %q, %q, %v", species, p.Species, p.Name, ok)
		}
		if found := p.Contradictions(); found != nil {
			t.Errorf("Default(%q) contradicts itself: %v", species, found)
		}
	}
}

func TestParametersAreSetWithinTheirBounds(t *testing.T) {
	for _, parameter := range Parameters() {
		p, _ := Default("neocaridina-davidi")
		for _, value := range []float64{parameter.Low, parameter.High} {
			if err := p.Set(parameter.Name, value); err != nil {
				t.Errorf("Set(%q, %v): %v", parameter.Name, value, err)
			}
			if got, ok := p.Get(parameter.Name); !ok || got != value {
				t.Errorf("Get(%q) = %v, %v, want %v", parameter.Name, got, ok, value)
			}
		}
		for _, value := range []float64{parameter.Low - 0.001, parameter.High * 1.001, math.NaN(), math.Inf(1)} {
			if err := p.Set(parameter.Name, value); err == nil {
				t.Errorf("Set(%q, %v) was accepted", parameter.Name, value)
			}
		}
		if got, _ := p.Get(parameter.Name); got != parameter.High {
			t.Errorf("%s: a refused Set changed the value to %v", parameter.Name, got)
		}
	}
	var p Profile
	if _, ok := p.Get("incubation.bass"); ok {
		t.Error(`Get("incubation.bass") exists`)
	}
	if err := p.Set("incubation.bass", 3); err == nil || !strings.Contains(err.Error(), `"incubation.bass"`) {
		t.Errorf(`Set("incubation.bass") = %v, want an error that quotes the name`, err)
	}
}

func TestContradictionsNameBothParameters(t *testing.T) {
	p, _ := Default("neocaridina-davidi")
	if err := p.Set("growth.female-mature", 28); err != nil {
		t.Fatal(err)
	}
	found := p.Contradictions()
	if len(found) != 1 || found[0].First != "growth.female-mature" || found[0].Second != "growth.female-max" {
		t.Fatalf("Contradictions() = %v, want the mature above the max female", found)
	}
	if want := "growth.female-mature (28) must be below growth.female-max (26.5)"; found[0].Message != want {
		t.Errorf("message %q, want %q", found[0].Message, want)
	}
}

func ExampleProfile_Set() {
	p, _ := Default("neocaridina-davidi")
	fmt.Println(p.Set("incubation.degree-days", 251))
	fmt.Println(p.Set("incubation.base", 40))
	fmt.Println(p.Get("incubation.degree-days"))
	// Output:
	// <nil>
	// incubation.base is 40 C; allowed is 0 to 15.5 C
	// 251 true
}
