// Package colony replays a journal up to a day: what the record proves about tanks, broods, cohorts and named shrimp.
package colony
