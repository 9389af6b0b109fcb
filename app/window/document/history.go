package document

import "haunchbook.example/app/job"

// History keeps the states of a job between edits.
type History interface {
	// Edit keeps j as the outcome of the edit that label describes, and drops
	// what could be redone.
	Edit(label string, j job.Job)
	// Undo gives the job before the last edit and the label of that edit; false
	// if there is none.
	Undo() (j job.Job, label string, ok bool, err error)
	// Redo gives the job after the edit that Undo took back last.
	Redo() (j job.Job, label string, ok bool, err error)
	// Next gives the labels of the edits that Undo and Redo would take, "" for
	// none.
	Next() (undo, redo string)
}

// Memory is a History that ends with the program.
type Memory struct {
	states []job.Job // states[i+1] is the outcome of edit i
	labels []string
	at     int // the state that is shown
}

// NewMemory gives the history of a job that has not been edited.
func NewMemory(j job.Job) *Memory { return &Memory{states: []job.Job{j}} }

// Edit implements History.
func (m *Memory) Edit(label string, j job.Job) {
	m.states = append(m.states[:m.at+1], j)
	m.labels = append(m.labels[:m.at], label)
	m.at++
}

// Undo implements History.
func (m *Memory) Undo() (job.Job, string, bool, error) {
	if m.at == 0 {
		return job.Job{}, "", false, nil
	}
	m.at--
	return m.states[m.at], m.labels[m.at], true, nil
}

// Redo implements History.
func (m *Memory) Redo() (job.Job, string, bool, error) {
	if m.at == len(m.labels) {
		return job.Job{}, "", false, nil
	}
	m.at++
	return m.states[m.at], m.labels[m.at-1], true, nil
}

// Next implements History.
func (m *Memory) Next() (undo, redo string) {
	if m.at > 0 {
		undo = m.labels[m.at-1]
	}
	if m.at < len(m.labels) {
		redo = m.labels[m.at]
	}
	return undo, redo
}
