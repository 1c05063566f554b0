package tour

import (
	"coilwalk/model/bench"
	"coilwalk/sequence"
)

// notes are the walk-through. Words are few: on the smallest screen a stage has
// three lines.
var notes = []Note{
	{"the next row", []Stage{{
		Shows: "A row of the order says which coil ends are on. They pull the rotor, a magnet, until it rests along their field.",
		Press: "Press {walk.next}: a new row. Left: which coils. Dial: the arrow is the field, the bar the rotor.",
		Say:   "Say next: the line tells which leads are on, the field, and where the rotor rests.",
		done:  func(since, _, now bench.Reading) bool { return now.Step > since.Step },
	}}},
	{"and back", []Stage{{
		Shows: "The field went on by one row, and the rotor came after it. The same rows in the other order turn the motor back.",
		Press: "Press {walk.back}: the row before. The motor really turns back; that is not an undo, which is {walk.rewind}.",
		Say:   "Say back: the motor really turns back; that is not an undo, which is rewind.",
		done: func(_, last, now bench.Reading) bool {
			return now.Step < last.Step && now.Undoable > last.Undoable
		},
	}}},
	{"wave drive", []Stage{{
		Shows: "Step modes differ in which coils are on together. The simplest is wave drive: one coil end at a time.",
		Press: "Press {walk.mode} until the head of the screen says wave drive.",
		Say:   "Say mode wave.",
		done:  changed(sequence.Wave),
	}, {
		Shows: "Wave drive: one coil end at a time, a full step a row, held with the strength of one coil.",
		Press: "Press {walk.next} twice, and watch how far the field goes, and \"held\" at the right.",
		Say:   "Say next 2, and hear how far it turns, and the strength.",
		done:  walked(sequence.Wave, 2),
	}}},
	{"full step", []Stage{{
		Shows: "In wave drive a row moves the field by 90°: one full step. Now two coils at a time.",
		Press: "Press {walk.mode} until the head says full step.",
		Say:   "Say mode full.",
		done:  changed(sequence.Full),
	}, {
		Shows: "Full step: always two coils, at right angles. The rows are as far apart, but the rests lie half a step beside those of wave drive.",
		Press: "Press {walk.next} twice: it is held √(1²+1²) = 1.41 times as hard.",
		Say:   "Say next 2: the strength is 1.41, the root of 1 + 1, for the coils pull at right angles.",
		done:  walked(sequence.Full, 2),
	}}},
	{"half step", []Stage{{
		Shows: "Half step takes the rows of both in turn: one coil, two coils, one coil …",
		Press: "Press {walk.mode} until the head says half step.",
		Say:   "Say mode half.",
		done:  changed(sequence.Half),
	}, {
		Shows: "Half step: twice as many rests, and the rotor is held by 1 and by 1.41 in turn.",
		Press: "Press {walk.next} twice, and watch \"held\" change while the field goes on by 45°.",
		Say:   "Say next 2, and hear the strength change while the field goes on by 45°.",
		done:  walked(sequence.Half, 2),
	}}},
	{"running", []Stage{{
		Shows: "Rows sent one after another are a run. The rotor then moves in time, and trails the field a little.",
		Press: "Press {walk.run}: it runs. In the strip below the dial △ is where the field pulls to, ▲ where the rotor is.",
		Say:   "Say run: one whole cycle, a line a row.",
		done: func(since, _, now bench.Reading) bool {
			rows := now.Step - since.Step
			return now.Running || max(rows, -rows) >= int64(now.Order.Len())
		},
	}, {
		Shows: "It runs. {walk.stop} always stops, here and with a real motor, and never does anything else.",
		Press: "Press {walk.stop}: it stops, and the last row holds it.",
		Say:   "Say stop.",
		done:  func(_, _, now bench.Reading) bool { return !now.Running },
	}}},
	{"a fault", []Stage{{
		Shows: "Now a wrong plug. Two leads exchanged are why most motors buzz and do not turn.",
		Press: "Press {walk.swap}, type 2 3 and enter: the leads on outputs 2 and 3 change places.",
		Say:   "Say swap 2 3: the leads on outputs 2 and 3 change places.",
		done:  func(_, _, now bench.Reading) bool { return faulty(now) },
	}, {
		Shows: "The order is the same, but two coil ends, one of each coil, get each other's rows.",
		Press: "Press {walk.next} 8 times, one cycle: rows that cancel or pull back, and the rotor rocks. That is what buzzes.",
		Say:   "Say next 8, one cycle: rows that cancel or pull back, and the rotor rocks. That is what buzzes.",
		done: func(since, _, now bench.Reading) bool {
			rows := now.Step - since.Step
			return !faulty(now) || max(rows, -rows) >= int64(now.Order.Len())
		},
	}, {
		Shows: "So it rocks in one place, or loses its place altogether. No direction command helps; the plug does.",
		Press: "Press {walk.rewire}: the leads are back as the motor states them.",
		Say:   "Say rewire: the leads are back as the motor states them.",
		done:  func(_, _, now bench.Reading) bool { return !faulty(now) },
	}}},
	{"where to go on", []Stage{{
		Shows: "Try yourself: practice, {walk.practice}, asks what a row will do before it is on. {anywhere.leads} finds the leads, {anywhere.faults} puts in other faults, {anywhere.trouble} starts from what goes wrong; coilwalk FILE opens a table or recording, coilwalk live PORT a real motor.",
		Press: "{tour.leave} ends this, {walk.tour} shows it again.",
		Say:   "Say practice to be asked, leads, faults or trouble; coilwalk read opens a recording, coilwalk live a real motor. Say tour end to end this.",
	}}},
}
