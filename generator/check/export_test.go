package check

// What tests look at from outside.

// UnreadLanguage is for tests of a language that has no folder, since one without its table is in no release.
var UnreadLanguage = unreadLanguage
