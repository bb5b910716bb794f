// Package schema writes JSON Schemas (draft 2020-12) of journal.yaml and of the front matter of an entry, so that any
// editor that speaks YAML can complete keys, show what they mean and mark slips while they are typed.
//
// They are made from the vocabulary that the reader uses. A schema accepts whatever the reader accepts and refuses what
// such a schema can express; what depends on other places, such as whether a tank or a brood exists, is for the reader.
package schema

import (
	"bytes"
	"encoding/json"

	"pleopod/journal"
)

// object is one JSON object. encoding/json writes its keys in order, so that the same vocabulary gives the same bytes.
type object map[string]any

// Journal returns the schema of journal.yaml.
func Journal() []byte {
	words := journal.Words()
	schema := mapping(words.Settings)
	tank := mapping(words.Tank)
	schema["$defs"] = object{"tank": tank, "biology": biology(words.Biology)}
	return document("journal", "A colony journal of dwarf shrimp: what holds for the whole diary", schema)
}

// Entry returns the schema of the front matter of an entry.
func Entry() []byte {
	words := journal.Words()
	schema := mapping(words.Entry)
	kinds := object{}
	for _, kind := range words.Kinds {
		all := append(append([]journal.Word{kind.Word}, kind.Attributes...), words.Event...)
		event := mapping(all)
		event["required"] = required(all, kind.Name)
		mayBeEmpty(event["properties"].(object), all[1:])
		kinds[kind.Name] = event
	}
	schema["$defs"] = kinds
	return document("entry", "An entry of a colony journal: what was seen on a day", schema)
}

// document completes a schema and writes it.
func document(name, title string, schema object) []byte {
	schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	schema["$id"] = "urn:pleopod:" + name
	schema["title"] = title
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(schema); err != nil {
		panic("schema: " + err.Error()) // maps, slices, texts and numbers always have a JSON form
	}
	return out.Bytes()
}

// mapping describes a mapping with these words and no other key.
func mapping(words []journal.Word) object {
	properties := object{}
	for _, word := range words {
		properties[word.Name] = described(word)
	}
	m := object{"type": "object", "properties": properties, "additionalProperties": false}
	if names := required(words); len(names) > 0 {
		m["required"] = names
	}
	return m
}

// mayBeEmpty lets what only tells more of an event stand without a value, as the reader does.
func mayBeEmpty(properties object, words []journal.Word) {
	for _, word := range words {
		if !word.Required {
			properties[word.Name] = object{"anyOf": []object{null(), form(word)}, "description": described(word)["description"]}
		}
	}
}

// required lists the words that must be there.
func required(words []journal.Word, more ...string) []string {
	names := more
	for _, word := range words {
		if word.Required {
			names = append(names, word.Name)
		}
	}
	return names
}

// described is the schema of a word with what it means.
func described(word journal.Word) object {
	about := word.About
	if word.Example != "" {
		about += "; for example: " + word.Example
	}
	value := form(word)
	value["description"] = about
	return value
}

// events describes the list of events. The kind decides which other keys an event may have: with "if" and
// "then" an editor names the wrong key, where a choice of nineteen would only say that none fits.
func events() object {
	words := journal.Words()
	properties := object{}
	var one, then []object
	for _, kind := range words.Kinds {
		properties[kind.Name] = object{"description": described(kind.Word)["description"]}
		one = append(one, object{"required": []string{kind.Name}})
		then = append(then, object{"if": object{"required": []string{kind.Name}},
			"then": object{"$ref": "#/$defs/" + kind.Name}})
	}
	item := object{"type": "object", "properties": properties, "oneOf": one, "allOf": then}
	return anyOf(null(), object{"type": "array", "items": item})
}

// biology describes the parameters that a journal replaces.
func biology(groups []journal.Word) object {
	properties := object{}
	for _, group := range groups {
		described := mapping(group.Keys)
		described["description"] = group.About
		properties[group.Name] = described
	}
	return object{"type": "object", "properties": properties, "additionalProperties": false}
}
