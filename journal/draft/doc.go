// Package draft writes what a keeper begins from: the files of a new journal, and a new entry that proposes, as
// comments, the events which the record and the forecast make likely on its day.
//
// A proposal is never a record: everything that was not seen yet stands behind a #, and numbers are left open,
// so that a draft which is saved as it is tells of nothing. The package is pure: it returns texts and writes no
// file.
package draft
