// Package forecast predicts from a colony's record: windows, numbers, growth, notices, and how earlier predictions did.
package forecast
