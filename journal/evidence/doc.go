// Package evidence answers what data say about a number: the interval of a share, the quantiles of a sample,
// how rare so many events are, whether a window held, and which particles go on.
//
// It holds general statistics only and knows nothing of shrimp. Every function is pure: it draws no random numbers,
// and those that need one take it as an argument. Where an input makes no sense (an empty list, a negative weight, a
// spread of nothing) the answer is NaN rather than a guess, unless the function says otherwise.
package evidence
