package render

// The icon that browsers show beside a page's title: a grey panel, dusted, with a strip of
// masking tape across it.
const (
	iconName = "icon.svg"
	icon     = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" rx="6" fill="#55626b"/><g fill="#1b1f22"><circle cx="7" cy="6" r="1.3"/><circle cx="22" cy="5" r="1"/><circle cx="27" cy="9" r="1.4"/><circle cx="14" cy="9" r=".9"/><circle cx="9" cy="27" r="1.2"/><circle cx="24" cy="26" r="1.1"/></g><path d="M0 21 32 11l0 7-32 10z" fill="#ecdca6"/></svg>`
)
