package passon

// dictionary is the text both sides of a code begin to pack with: the words of the
// kit file and of the trade, what is likeliest last. It belongs to codeVersion 1 and
// never changes; another one would be version 2.
const dictionary = `steering gear box pump pressure hose power tie rod end ball joint drag link pitman arm front rear axle shaft inner outer wheel bearing seal ` +
	`brake pads rotor calliper caliper hose line master cylinder drum shoes locking hub spindle u-joint drive-shaft universal joint cross kit cone cup race ` +
	`snap ring unit bearing alternator belt water pump thermostat radiator fuel filter injection starter clutch spring shackle bushing shock absorber lug stud ` +
	`drilled machined ground shimmed longer shorter thread pitch diameter width bore length thickness teeth splines bolt circle caliper tape counted read ` +
	`Kestrel Orrin Halden ABMA 19 ISO SAE AS568 mm in 4x4 4x2 single dual V8 diesel 1978-1979 1985-1991 1994-1997 2001-2005 ` +
	`"registration":"","odometer":" mi","odometerOn":"2026-01-01","tyre":"","oversize":1,"traits":{"front-hubs":"locking","rear-axle":"full-float"},` +
	`"note":"","mass":" g","volume":" L","mass":" kg","buyWith":["",""],"lookAlikes":[{"name":"","tell":"","part":"1"}],"worn":true,` +
	`"changes":["",""],"evidence":"store book","evidence":"test-fitted","evidence":"hearsay","on":"2025-0","by":"","grade":"does not fit","grade":"one-way",` +
	`"grade":"fits with changes","grade":"drop-in","links":[{"id":"1","for":"1","with":"2",` +
	`"measurements":[{"name":"","value":" mm","how":"caliper","on":"2026-0"},{"name":"","value":" in","how":"caliper"}],` +
	`"issuer":"casting","issuer":"standard","from":"","issuer":"replacement","from":"","proof":{"how":"store book"}},{"value":"","issuer":"maker","proof":{"how":"number read","on":"2025-0"}}],` +
	`"donors":[{"id":"4","make":"","model":"","yearFrom":19,"yearTo":19,"drive":"4x4","rearWheels":"dual","engine":"","axle":"","vin":""}],` +
	`"parts":[{"id":"5","kind":"","name":"","donor":"4","numbers":[{"value":"",` +
	`"quantity":1,"part":"5","fitted":"2025-0","fittedAt":" mi","proof":{"how":"test-fitted","on":"2025-0","by":"","note":""}}],` +
	`"systems":[{"id":"2","rig":"1","name":"","order":1}],"positions":[{"id":"3","system":"2","name":"","side":"right","order":1,"side":"left","kind":"",` +
	`{"format":"trail-field-kit","version":"1.1","id":"p","name":"interchange link","currency":"EUR","name":"counter card","currency":"USD","name":"position","currency":"USD","rigs":[{"id":"1","name":""}],`
