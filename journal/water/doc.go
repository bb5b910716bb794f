// Package water answers questions about tank water: temperature between readings, ammonia, hardness, mixing and units.
package water
