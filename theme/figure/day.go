package figure

import (
	"math"
	"time"
)

// unixEpoch is 1970-01-01 as a Rata Die day (Reingold & Dershowitz, Calendrical Calculations).
const unixEpoch = 719163

// dateOf returns midnight UTC of the day that holds x, a Rata Die day that may have a fraction.
func dateOf(x float64) time.Time {
	return time.Unix(int64(math.Floor(x)-unixEpoch)*86400, 0).UTC()
}

// dayOf returns the Rata Die day of a date.
func dayOf(year int, month time.Month, day int) float64 {
	return float64(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix()/86400 + unixEpoch)
}

// firstDay and lastDay bound a calendar axis: the years 1 to 9999, those that an ISO 8601 date can name.
const firstDay, lastDay = 1, 3652059
