package office_test

import (
	"testing"
	"time"

	"haunchbook.example/app/job"
	"haunchbook.example/storage"
	"haunchbook.example/storage/office"
	"haunchbook.example/storage/office/trial"
)

// follow has a person's book followed, and gives what waits for a status.
func (p *person) follow(s *trial.Server, db string) (*office.Following, func(what string, is func(office.Status) bool) office.Status) {
	p.t.Helper()
	statuses := make(chan office.Status, 1000)
	f := office.Follow(p.book, s.Address(p.t, p.name, db), nil, office.Options{}, func(st office.Status) { statuses <- st })
	p.t.Cleanup(f.Stop)
	return f, func(what string, is func(office.Status) bool) office.Status {
		p.t.Helper()
		late := time.After(time.Minute) // far longer than it takes: nothing hangs on it but the end
		var last office.Status
		for {
			select {
			case last = <-statuses:
				if is(last) {
					return last
				}
			case <-late:
				p.t.Fatalf("%s: never %s; last %+v", p.name, what, last)
			}
		}
	}
}

// What one does another has without asking; who is on a job is known, and no longer when he
// went; a server that restarts is waited for, and what was done meanwhile goes up then.
func TestFollowing(t *testing.T) {
	t.Parallel()
	s := trial.Own(t, "-c", "fsync=off")
	db := s.NewBook(t)
	ed, frank := newPerson(t, s, "ed", db), newPerson(t, s, "frank", db)
	id := ed.create(shop())
	fe, edIs := ed.follow(s, db)
	ff, frankIs := frank.follow(s, db)
	online := func(st office.Status) bool { return st.Online && st.Heard && st.Waiting == 0 }
	edIs("online", online)
	frankIs("has the job", func(st office.Status) bool { return st.Report.Down > 0 })
	ed.edit("Note", func(j *job.Job) { j.Notes = "live" })
	fe.Nudge()
	edIs("sent", func(st office.Status) bool { return st.Report.Up == 1 })
	frankIs("has the note", func(st office.Status) bool { return st.Report.Down == 1 })
	fid, j := frank.only()
	if j.Notes != "live" {
		t.Errorf("frank has %q", j.Notes)
	}
	fe.On(id)
	ff.On(fid)
	edIs("with frank on the job", func(st office.Status) bool { return len(st.Others) == 1 && st.Others[0] == "frank" })
	s.Kill()
	st := edIs("offline", func(st office.Status) bool { return !st.Online && st.Err != nil })
	if !storage.IsKind(st.Err, storage.Offline) {
		t.Errorf("a killed server is told as %v", st.Err)
	}
	ed.edit("Note", func(j *job.Job) { j.Notes = "while it was down" })
	fe.Nudge()
	edIs("one waits", func(st office.Status) bool { return st.Waiting == 1 })
	if err := s.Start(); err != nil {
		t.Fatal(err)
	}
	edIs("online again", func(st office.Status) bool { return st.Online && st.Report.Up == 1 })
	frankIs("has it", func(st office.Status) bool { return st.Report.Down == 1 })
	ff.On(0)
	edIs("alone on the job", func(st office.Status) bool { return st.Online && len(st.Others) == 0 })
}
