package job

// Fresh gives the job without what belongs to its one time and place: the day of its pour
// with its forecast, what holds it back, what was seen on the site, and its account. What a job is copied into starts
// so.
func (j Job) Fresh() Job { return j.Keeping(Job{Account: j.Account.Usual()}) }

// Keeping gives the job with these records of another: where an earlier state of a job is
// brought back, what was written down since stays.
func (j Job) Keeping(of Job) Job {
	of = of.Clone()
	j.Pour.Date, j.Pour.Forecast, j.Holds, j.Account = of.Pour.Date, of.Pour.Forecast, of.Holds, of.Account
	j.Visit = of.Visit
	return j
}
