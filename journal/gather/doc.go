// Package gather reads tables that a keeper has already: files of temperature loggers and water tests or counts
// from a spreadsheet, saved as CSV. It works out how a table is written, says what it understood, and turns it
// into entries and logger files of the journal.
//
// It guesses only what the table itself proves: a date 14/03/2026 shows that the day stands first, a number
// 23,4 that the comma is a decimal mark. Where two readings are possible it asks, names the flag that answers,
// and does nothing. A year of two digits is one from 2000 on, and stands last where the table does not show otherwise. What a
// note tells of is proposed and never gathered. What the journal knows already is left out, so that the same table twice adds nothing.
//
// The package is pure: bytes in, texts out. The words of its tables of names are everyday words of several
// languages, from memory.
package gather
