import { mount } from 'svelte';
import App from './App.svelte';
import './look/look.css';
import './look/tokens.css';
import { register_worker, something_typed, survive_missing_parts } from './page_worker';
import { hold_if_handed } from './places/scraps/handed';
import { house } from './places/shared/house.svelte';
import { fetch_ahead } from './routes';
import { chosen_elsewhere } from './words';

const target = document.getElementById('app');
if (target) mount(App, { target });
survive_missing_parts(something_typed);
if (import.meta.env.PROD) register_worker();
addEventListener('storage', (written) => {
  const language = chosen_elsewhere(written);
  if (language) void house.speak(language);
});
fetch_ahead(location.hash);
void house.begin().then(() => house.open && hold_if_handed());
