package main

import (
	"net/url"

	"pleopod/journal"
)

// sarifSchema is the published schema of the Static Analysis Results Interchange Format 2.1.0 (OASIS Standard, 2020).
const sarifSchema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json"

// The parts of a SARIF log that a check fills, by the names of the standard.
type (
	sarifLog struct {
		Schema  string     `json:"$schema"`
		Version string     `json:"version"`
		Runs    []sarifRun `json:"runs"`
	}
	sarifRun struct {
		Tool       sarifTool     `json:"tool"`
		ColumnKind string        `json:"columnKind"`
		Results    []sarifResult `json:"results"`
	}
	sarifTool struct {
		Driver sarifDriver `json:"driver"`
	}
	sarifDriver struct {
		Name  string      `json:"name"`
		Rules []sarifRule `json:"rules"`
	}
	sarifRule struct {
		ID               string    `json:"id"`
		ShortDescription sarifText `json:"shortDescription"`
		FullDescription  sarifText `json:"fullDescription"`
		Help             sarifText `json:"help"`
	}
	sarifText struct {
		Text string `json:"text"`
	}
	sarifResult struct {
		RuleID    string          `json:"ruleId"`
		RuleIndex int             `json:"ruleIndex"`
		Level     string          `json:"level"`
		Message   sarifText       `json:"message"`
		Locations []sarifLocation `json:"locations"`
	}
	sarifLocation struct {
		Physical sarifPhysical `json:"physicalLocation"`
	}
	sarifPhysical struct {
		Artifact sarifArtifact `json:"artifactLocation"`
		Region   sarifRegion   `json:"region"`
	}
	sarifArtifact struct {
		URI       string `json:"uri"`
		URIBaseID string `json:"uriBaseId"`
	}
	sarifRegion struct {
		StartLine   int `json:"startLine"`
		StartColumn int `json:"startColumn"`
	}
)

// newSarif puts problems into a SARIF log. Every kind of problem that was found is a rule, explained as the
// manual does. Paths are relative to the journal's folder, which the reader of the log knows as %SRCROOT%.
func newSarif(problems []journal.Problem) sarifLog {
	run := sarifRun{Tool: sarifTool{sarifDriver{Name: "pleopod", Rules: []sarifRule{}}},
		ColumnKind: "unicodeCodePoints", Results: []sarifResult{}}
	rules := map[string]int{}
	for _, p := range problems {
		if _, known := rules[p.Code]; !known {
			rules[p.Code] = len(run.Tool.Driver.Rules)
			run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, ruleOf(p.Code))
		}
		text := p.Message
		if p.Hint != "" {
			text += "; " + p.Hint
		}
		place := sarifPhysical{sarifArtifact{(&url.URL{Path: p.File}).EscapedPath(), "%SRCROOT%"},
			sarifRegion{p.Line, p.Column}}
		run.Results = append(run.Results,
			sarifResult{p.Code, rules[p.Code], severityOf(p), sarifText{text}, []sarifLocation{{place}}})
	}
	return sarifLog{sarifSchema, "2.1.0", []sarifRun{run}}
}

// ruleOf is one kind of problem as a rule.
func ruleOf(code string) sarifRule {
	e, _ := journal.Explain(code)
	return sarifRule{code, sarifText{e.Title}, sarifText{e.Meaning},
		sarifText{"Found for example in: " + e.Example + "\nInstead: " + e.Fix}}
}

// severityOf names the severity of a problem, as the JSON and the SARIF form both call it.
func severityOf(p journal.Problem) string {
	if p.Severity == journal.Warning {
		return "warning"
	}
	return "error"
}
