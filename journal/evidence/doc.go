// Package evidence answers what data say about a number, and how good a prediction was: intervals, updates and scores.
package evidence
