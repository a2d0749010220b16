// Nothing on a page needs a script to be read. What scripts add begins here.
document.documentElement.classList.add("scripted");
