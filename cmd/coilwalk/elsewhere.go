package main

import (
	"errors"

	"coilwalk/model/files"
	"coilwalk/model/recording"
	"coilwalk/model/table"
	"coilwalk/model/wiring"
)

// notATable adds to a complaint about a step table where what was given is to be
// read otherwise: by its look it is a recording.
func notATable(err error, name string, text []byte) error {
	if recording.Like(text) && !table.IsSheet(text) {
		return advised(err, "a recording of pins is read by coilwalk read "+files.Shown(name))
	}
	return err
}

// notARecording does so for a recording: a step table is found in it.
func notARecording(err error, name string) error {
	head, failed := files.Head(name, table.LongestFile)
	if failed != nil || name == files.Standard {
		return err
	}
	if source, failed := table.Read(name, head, table.Options{}); failed == nil && len(source.Tables) > 0 {
		return advised(err, "a step table is read by coilwalk check "+files.Shown(name))
	}
	return err
}

// notAFile does so for a file of symptoms: what was given is a symptom itself.
func notAFile(err error, name string) error {
	if _, failed := wiring.ParseSymptom(name); failed != nil {
		return err
	}
	return advised(err, "symptoms stand in a file, a line each, or are handed on: printf '"+files.Shown(name)+"\\n' | coilwalk faults -")
}

// advised gives a complaint with one more piece of advice; another error as it is.
func advised(err error, advice string) error {
	var c *files.Complaint
	if !errors.As(err, &c) {
		return err
	}
	with := *c
	if with.Right != "" {
		with.Right += "; "
	}
	with.Right += advice
	return &with
}
