package job

// Fresh gives the job without what belongs to its one time and place: the day of its pour
// and what holds it back. What a job is copied into starts so.
func (j Job) Fresh() Job { return j.Keeping(Job{}) }

// Keeping gives the job with these records of another: where an earlier state of a job is
// brought back, what was written down since stays.
func (j Job) Keeping(of Job) Job {
	j.Pour.Date, j.Holds = of.Pour.Date, of.Clone().Holds
	return j
}
