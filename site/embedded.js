// Only in the one-file edition (site/finish.py): what stands beside the page elsewhere is packed
// into it here, as <script type="application/gzip" data-name="…"> with base64 inside.
const TYPES = {html: 'text/html', txt: 'text/plain;charset=utf-8', wasm: 'application/wasm'};

const holder = (name) => [...document.querySelectorAll('script[data-name]')]
    .find((node) => node.dataset.name === name);

async function blob(name) {
  const packed = Uint8Array.from(atob(holder(name).textContent), (c) => c.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'));
  const bytes = await new Response(stream).arrayBuffer();
  return new Blob([bytes], {type: TYPES[name.split('.').pop()]});
}

export async function bytes(name) {
  return (await blob(name)).arrayBuffer();
}

// In a tab of its own, as it would open beside the page. False if it is not in here.
export function open(name) {
  if (!holder(name)) return false;
  blob(name).then((content) => {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(content);
    link.target = '_blank';
    link.rel = 'noopener';
    link.click();
  });
  return true;
}

document.addEventListener('click', (event) => {
  const link = event.target.closest('a[href]');
  if (link && open(link.getAttribute('href'))) event.preventDefault();
});
