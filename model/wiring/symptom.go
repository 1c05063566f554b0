package wiring

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"coilwalk/model/files"
	"coilwalk/sequence"
)

// Symptom is what a person saw a motor do in a trial.
type Symptom struct {
	Trial
	Seen   Seen
	Places int // of a buzz, where they were counted; else 0
	Line   int // in the file, for messages
}

// Seen is a word for what was seen. Besides those of Does there are three more.
type Seen string

// The words that are no plain outcome.
const (
	Weak     Seen = "weak"     // it turns, but a finger stops it
	Reverses Seen = "reverses" // held for a moment, it turns the other way
	Unsure   Seen = "unsure"
)

// seenWords are all words for what was seen.
var seenWords = []string{string(Clockwise), string(CounterClockwise), string(Skips), string(Buzzes), string(Still), string(Weak), string(Reverses), string(Unsure)}

const mostSymptoms = 100

// ReadSymptoms reads lines of "half forward buzz 2 at 600": the mode, the
// direction that was commanded, what was seen, for a buzz the places counted, and
// where it was not slow the rate in rows a second. Words are parted by blanks or
// commas; # begins a comment.
func ReadSymptoms(file string, text []byte) (all []Symptom, err error) {
	for i, line := range strings.Split(strings.TrimPrefix(string(text), "\ufeff"), "\n") {
		line, _, _ = strings.Cut(line, "#")
		if strings.TrimSpace(line) == "" {
			continue
		}
		s, err := ParseSymptom(line)
		if err == nil && len(all) == mostSymptoms {
			err = fmt.Errorf("this is symptom %d; at most %d are taken", mostSymptoms+1, mostSymptoms)
		}
		if err != nil {
			return nil, &files.Complaint{File: file, Line: i + 1, What: err.Error()}
		}
		s.Line = i + 1
		all = append(all, s)
	}
	return all, nil
}

// slowest is the least rate, in rows a second, at which a symptom is run in time: a
// slower one takes ages, and tells nothing else.
const slowest = 5

// ParseSymptom reads one symptom.
func ParseSymptom(text string) (s Symptom, err error) {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' || r == '\t' || r == '\r' })
	if n := len(words); n > 2 && words[n-2] == "at" {
		s.Rate, err = strconv.ParseFloat(words[n-1], 64)
		if err != nil || !(s.Rate > 0 && s.Rate <= 1e6) {
			return s, fmt.Errorf("%s is no rate; rows a second are wanted, as at 600", files.Quoted(words[n-1]))
		}
		words = words[:n-2]
	}
	if len(words) < 3 || len(words) > 4 {
		return s, fmt.Errorf("%s is no symptom; mode, commanded direction and what it does are wanted, as half forward buzz", files.Quoted(strings.TrimSpace(text)))
	}
	if s.Rate > 0 && s.Rate < slowest {
		return s, fmt.Errorf("%g rows a second are slow, and what is slow needs no rate: leave it out", s.Rate)
	}
	at := slices.IndexFunc(sequence.Modes[:], func(m sequence.Mode) bool { return m.Name == words[0] })
	if at < 0 {
		return s, fmt.Errorf("%s is none of the modes; %s is wanted", files.Quoted(words[0]), files.Either(sequence.ModeNames()[:len(sequence.Modes)]))
	}
	s.Mode = sequence.Modes[at]
	switch words[1] {
	case "forward":
		s.Way = sequence.Forward
	case "reverse":
		s.Way = sequence.Reverse
	default:
		return s, fmt.Errorf("%s is no direction; forward or reverse, as it was commanded, is wanted", files.Quoted(words[1]))
	}
	if !slices.Contains(seenWords, words[2]) {
		err := fmt.Errorf("%s is nothing that can be seen; %s is wanted", files.Quoted(words[2]), strings.Join(seenWords, ", "))
		if near := files.Nearest(words[2], seenWords); near != "" {
			err = fmt.Errorf("%s is nothing that can be seen; did you mean %q?", files.Quoted(words[2]), near)
		}
		return s, err
	}
	s.Seen = Seen(words[2])
	if len(words) == 4 {
		s.Places, err = strconv.Atoi(words[3])
		if err != nil || s.Places < 1 || s.Places > 100 || s.Seen != Seen(Buzzes) {
			return s, fmt.Errorf("%s counts nothing; only a buzz has places, as half forward buzz 2", files.Quoted(words[3]))
		}
	}
	return s, nil
}
