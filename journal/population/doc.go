// Package population simulates colonies day by day and weighs the simulation against what was counted.
//
// It answers how many shrimp live in a tank, how many will, and how sure that is. The answer is a cloud of particles:
// each is one possible history of the tank, with its own draws of the numbers that nobody knows exactly (how many
// hatch, how many young survive, how fast they mature, which share of the shrimp the keeper sees). What the journal
// proves happens in every particle; what it does not say is drawn; what was counted decides how much a particle weighs.
//
// A particle holds cohorts, not animals: females that are not mature, mature females, and males, by age in periods of a
// week, and for the mature females a brood clock that runs in shares of an incubation. Deaths, clutches, hatchlings and
// maturing are drawn every day or every period. Within one particle the stage of the brood clock is independent of the
// mother's age: a female that dies or leaves is drawn from both apart.
//
// It stops being true where one animal matters more than its class: single names have no state here beyond what the
// facts say of them. Temperature is taken as the day's mean with its uncertainty averaged over; water quality is not
// modelled; fish are there or not.
//
// Everything is a function of the records and the seed: no clock, no disk, and the same result on any number of cores.
package population
