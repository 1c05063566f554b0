package view

// cure puts a cure in by its number, and goes to look at it turn.
func (r *recordingScreen) cure(e *Explorer, number int) {
	if r.busy() {
		if len(r.Cures()) > 0 {
			e.notice = alarm("the motor is still run along it; {recording.end-reading} ends that, and then it can be put in")
		}
		return
	}
	before := e.bench.Read()
	words, ok := r.Cure(e.bench, number)
	if !ok {
		return
	}
	r.cured = true
	r.judgeAgain(e)
	e.follow(before)
	e.show(e.screenAt("walk"))
	e.notice = advice(words)
}

// watch judges the recording anew where leads were moved on the bench since a cure was
// put in: a rewind takes it out.
func (r *recordingScreen) watch(e *Explorer) {
	if r.cured && !r.busy() && r.Question.Wiring != nil && *r.Question.Wiring != e.bench.Read().Wiring {
		r.judgeAgain(e)
	}
}

// judgeAgain judges the rows with the leads of the bench, beside the screen.
func (r *recordingScreen) judgeAgain(e *Explorer) {
	judge := r.JudgeAs(e.bench, r.Course)
	r.Ride, r.Rider, r.Fault, r.down = nil, nil, -1, 0
	r.load.what, r.load.ended = "judging it again", false
	e.later(func() late { return loadedMsg{screen: r, verdict: judge()} })
}
