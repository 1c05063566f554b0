//go:build race

package main

// underRace makes the end-to-end tests build the binary with the race detector
// as well.
const underRace = true
