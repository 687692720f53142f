/* Only on pages that `faceside site --watch` serves, never in a file: loads the page again when
   the pages are others than the one that it came with. A page that is not looked at lets go of its
   stream, since a browser holds few connections to one place, and asks again when it is. */
(function () {
  "use strict";
  const here = new URL(document.currentScript.src).searchParams.get("at");
  let stream = null;
  function listen() {
    if (stream) stream.close();
    stream = null;
    if (document.hidden) return;
    stream = new EventSource("/-/changes");
    stream.onmessage = (told) => {
      if (told.data !== here) location.reload();
    };
  }
  document.addEventListener("visibilitychange", listen);
  listen();
})();
