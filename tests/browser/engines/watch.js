// Put into the page before everything else by the tests' server: keeps what the page complains
// about, in an engine whose driver does not tell.
'use strict';

window.problemsSeen = [];
const complain = console.error.bind(console);
console.error = (...what) => {
  window.problemsSeen.push('console: ' + what.join(' '));
  complain(...what);
};
window.addEventListener('error', (event) => {
  window.problemsSeen.push('error: ' + (event.message || event.target.src || event.target.href));
}, {capture: true});
window.addEventListener('unhandledrejection', (event) => {
  window.problemsSeen.push('rejection: ' + event.reason);
});
document.addEventListener('securitypolicyviolation', (event) => {
  window.problemsSeen.push(`CSP: ${event.violatedDirective} ${event.blockedURI}`);
});
