// Package journal reads a keeper's folder: settings, entries and typed events, each with its position, and every problem in them.
package journal
